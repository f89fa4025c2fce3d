#pragma once

#include <concepts>
#include <optional>
#include <string>
#include <vector>

#include "episode/event.hpp"
#include "episode/history.hpp"
#include "protocol/child.hpp"
#include "protocol/protocol.hpp"

namespace rushlight {

/// Time as the episode counts it. A clock that is set back adds what it lost to `lost`, so elapsed time never shrinks and
/// every deadline keeps the minutes it had left; the wall time of an instant of the episode is the instant less `lost`.
struct EpisodeClock {
  Instant last_wall;
  Duration lost{0};
  std::chrono::minutes offset{0};
};

struct Known {
  Value value;
  Instant learned;
  int told_by;        // the how-manyeth event said it
  bool used = false;  // a rule of a step that asks for it has led on since it was told
  bool noticed = false;  // a watch for news has fired on it
  std::optional<Instant> told_again = std::nullopt;  // by a correction, or as news: then it was told, and is as old as it is
};

/// Why the episode stands in its step.
struct Cause {
  enum class Kind : std::uint8_t { start, rule, watch, outcome, overdue } kind = Kind::start;
  StepId from{0};            // the step whose rule, outcome or wait it was
  std::uint16_t index = 0;   // of the rule in the step, the watch in the protocol, or the action in the protocol
  Outcome outcome = Outcome::given;
};

/// What was given, or tried: never taken back by a correction.
struct Given {
  ActionId action;
  Outcome outcome;
  std::optional<Quantity> amount;
  Instant when;
  std::optional<Quantity> stated = std::nullopt;  // what the step said to give when it was told
  int told_by = 0;                                // the how-manyeth event said it
};

/// A reading as it was told, for the telephone and for the night's own history.
struct ToldReading {
  FactId fact;
  Value value;
  Instant when;
};

/// Another protocol is walked, and then this one goes on.
struct Visit {
  StepId from;  // what this step handles is handled during the whole visit, and nothing is calmer than it
  StepId back;
  int begun_by;  // the how-manyeth event led there
};

struct OpenCall {
  Contact contact;
  Instant opened;
  Duration answer_within;
  bool moved_on = false;  // nobody answered at the contact before
  bool by_step = true;    // a step asked for it; otherwise it only stands in for one that nobody answered
  bool now = false;       // the step that asked for it said "now": a call to the clinic is no calmer than that
  bool unsaid = false;    // it moved on by time alone: somebody may be on the line, and nobody said so
  Instant answer_by() const { return opened + answer_within; }
  /// Nobody is to be woken for it: the answer may come in the morning. An hour is common practice, no source.
  bool may_wait() const { return answer_within > std::chrono::hours{1}; }
};

/// A protocol being walked for one child: the fold of its events, and nothing that is not in them.
struct Episode {
  Moment began;
  EpisodeClock clock;
  Language language;
  StepId step;
  Instant entered;
  int entered_by = 0;                          // how many events had been told when the step was entered
  Cause cause;
  std::vector<std::optional<Known>> facts;     // by FactId; child-file facts stay empty here
  std::vector<int> counted;                    // by CounterId
  std::vector<std::optional<Value>> marks;     // by MarkId: what the fact was when the mark was set
  std::vector<ToldReading> readings;           // of the whole episode, glucose, ketones and ordered choices
  std::optional<Visit> visit;                  // to another protocol, while it lasts
  std::optional<Instant> drinking_since;       // when drinks were first to be counted
  History past;                                // of the nights before
  std::vector<Given> given;                    // of the whole episode
  std::vector<Given> deeds;                    // of this visit to the step
  std::optional<Instant> wait_ends;            // of the step's own wait, once it has started
  bool wait_passed = false;
  int waits = 0;                               // how many have started so far; one of no time is none
  std::vector<std::optional<Instant>> timers;  // by TimerId; the controlling wait is not among them
  std::vector<OpenCall> calls;
  std::optional<ActionId> called_for;          // the action that asked for a call last: why somebody calls
  bool on_the_line = false;                    // the emergency services answered, and no calmer step lasted since
  std::vector<FactId> opening;                 // opening questions still to be asked
  Instant opening_since;                       // since when
  std::string told;                            // what a clinician said last
  bool insulin_said = false;                   // of this visit to the step: its insulin is what a clinician said
  std::string carer;                           // who took over
  int events = 0;                              // how many have been told
  bool clock_went_back = false;
  bool handed_over = false;                    // another protocol of the set was walked before this one
  bool ended = false;
  bool abandoned = false;
  std::vector<Event> history;                  // as written; AllDone stands expanded into its deeds
};

}  // namespace rushlight
