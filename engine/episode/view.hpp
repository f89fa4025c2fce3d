#pragma once

#include <string>
#include <vector>

#include "episode/approval_text.hpp"
#include "episode/dose_result.hpp"
#include "episode/fold.hpp"

namespace rushlight {

struct ShownAction {
  ActionId id;
  std::string name;
  ActionKind kind;
  std::string text;
  std::optional<DoseResult> dose;
  std::optional<Outcome> outcome;  // of this visit to the step; no answer for a call that has moved on
  std::optional<Contact> contact;  // of a call: whom it is to reach now
};

struct ShownQuestion {
  FactId id;
  std::string name;
  FactKind kind;
  std::string text, help;
  struct Choice { std::string name, text; };
  std::vector<Choice> choices;
};

/// An answer that the step takes during its wait already ("Wakes and talks").
struct ShownEarly {
  FactId fact;
  std::uint16_t option;
  std::string name, choice, text;
};

struct ShownTimer {
  std::string name, label;
  Moment until;    // before the wait has started: the latest moment at which it can end
  bool controls;   // the step's own wait
  bool started;
};

struct ShownCall {
  Contact contact;
  std::string who;     // "the clinic's on-call line"
  std::string number;  // "your local emergency number" until one is given
  std::string text;    // "The clinic was not reached. Call 555 0102 now."
  std::optional<Moment> answer_by;  // for the emergency services: when to call again
};

struct Withheld {
  std::string what, reason;
};

/// One statement's ground: which rule, which number, which source.
struct Why {
  std::string rule;       // "measure/2", "watch/will-not-wake", "dose/fast-carbohydrate"
  std::string threshold;  // empty when the rule compares no number
  std::string label, value, source;
};

struct GivenLine {
  std::string name, text;
  Outcome outcome;
  Moment when;
};

/// What was drunk since drinks began to count, against the goal up to now, or up to the end of the night. Both in mL.
struct ShownDrinks {
  Quantity drunk, goal;
  Moment since;
  bool told = false;  // whether anybody said what was drunk; nothing drunk and nothing told are not the same
};

/// Who stands for the protocol that the step is of, and whether that counts today.
struct ShownApproval {
  ApprovalState state;
  std::optional<Approval> approval;  // as written in the protocol
  std::string text;                  // what every face says of it
};

/// Everything a face shows at one moment, and nothing it has to work out.
struct View {
  std::string set, protocol, step, child;
  Language language;
  Urgency urgency;
  std::string headline;               // the step's own, or the call that is graver than the step
  std::vector<std::string> also;      // dangers that the step handles without being about them
  std::string meanwhile;              // the step's own headline while a graver call is open; may be empty
  std::vector<ShownQuestion> ask;
  std::optional<Moment> asked_since;  // how long the questions stand; empty when there are none
  std::vector<ShownAction> actions;
  std::vector<ShownEarly> early;      // while waiting only
  std::optional<ShownTimer> wait;
  bool waiting;                       // the wait has not ended yet
  std::vector<ShownTimer> timers;     // all of them, soonest first
  std::vector<ShownCall> open_calls;
  std::optional<ShownCall> call;      // the gravest open call
  std::vector<Withheld> withheld;
  std::vector<std::string> caution;   // ends with approval.text and that the clinic is not replaced
  ShownApproval approval;
  std::vector<Why> why;
  std::vector<GivenLine> given;
  std::optional<ShownDrinks> drinks;
  std::vector<std::string> say;       // with an open call: what to say on the telephone, in this order
  std::string told;
  bool ended;
};

/// What to show at `now`. Pure: the same protocol, child, episode and moment give the same view.
View view_of(const Protocol& protocol, const Child& child, const Episode& episode, Moment now);

/// The lines of "something got worse" that something watches for where the episode stands, in its language.
std::vector<std::pair<Sign, std::string>> signs_of(const Protocol& protocol, const Child& child, const Episode& episode);

}  // namespace rushlight
