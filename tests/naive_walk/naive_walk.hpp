#pragma once

#include <map>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "episode/episode.hpp"

// The slow, obvious judge of the engine. It is written from docs/protocol-format.md ("How a step runs", "Conditions",
// "Calls"), not from the engine: it keeps a diary of what happened, goes through time beat by beat, and at each beat
// puts every question of that page anew to the whole diary. It has no deadlines, no stored counters, no stored state
// but the diary and the clock.

namespace rushlight::naive {

/// How the judge walks. All but the first are there to be told apart by the comparison: a comparison that does not
/// notice them would notice nothing.
enum class Variant {
  as_agreed,
  // Mistakes.
  wait_ends_a_beat_late,
  overdue_a_beat_late,
  last_rule_wins,
  steps_before_watch,
  calmest_urgency_wins,
  clock_shrinks_time,
  takeover_asks_nothing,
  early_answers_count,
  corrections_count_from_now,
  corrections_take_back_deeds,
  corrections_are_walked_in_the_past,
  corrections_put_checks_off,
  clinic_calls_are_calm,
  told_late_counts_from_telling,
  calls_wait_for_ever,
  emergency_is_called_once,
  part_is_nothing,
  unanswered_fires_watch,
  stale_answers_are_fresh,
  start_within_never_comes,
  end_is_the_end,
  a_reading_is_its_own_check,
  told_together_never_counts,
  unnamed_worse_asks_nothing,
  opening_questions_outlive_a_watch,
  old_news_is_news,
  every_step_calls_anew,
  opening_answers_wait,
  stand_in_calls_outlive_the_night,
  // Readings: what the page leaves open, or says in two ways.
  calls_move_on_after_the_end,
  time_alone_leads_on,
  any_outcome_starts_the_wait,
  early_rules_wait_too,
  stand_in_calls_stay,
  all_done_empties_the_cup,
};
inline constexpr int kVariants = static_cast<int>(Variant::all_done_empties_the_cup) + 1;
const char* name_of(Variant variant);

/// The readings that are in force now. Moving one here turns it round in the judge.
constexpr bool is_in_force(Variant) { return false; }

/// Where a walk stands at one moment: what the judge and the engine must agree on.
struct Standing {
  std::string step;
  Urgency urgency;
  std::vector<std::string> ask;
  std::optional<Instant> asked_since;  // as the wall clock shows it
  bool waiting;
  std::optional<Instant> until;  // of the wait, as the wall clock shows it
  std::vector<int> counters;
  std::vector<std::optional<Instant>> timers;      // in the episode's own time
  std::vector<std::pair<Contact, Instant>> calls;  // open, with the moment the next contact is due; sorted
  std::vector<std::string> given;                  // "action outcome moment"
  std::vector<std::string> outcomes;               // of this visit to the step, by action in its order; empty: none yet
  std::string told;
  bool clock_went_back;
  bool ended;
  bool abandoned;
  Language language;
  bool in_circles;  // the judge only: not to be compared
};
/// One line a difference; empty when both are the same.
std::string differences(const Standing& judge, const Standing& engine);

class NaiveWalk {
 public:
  /// `beat` divides every time in the protocol and the night, so that nothing falls between two beats.
  NaiveWalk(const Protocol& protocol, const Child& child, Moment begins, Duration beat,
            Variant variant = Variant::as_agreed);

  void happens(const Event& event);
  Standing standing_at(Moment now) const;

  /// Rules led on 100 times within one beat: such a protocol goes round for ever, and is not walked further.
  bool in_circles() const { return in_circles_; }

 private:
  struct Entered {
    StepId step;
  };
  struct LedOn {
    StepId from;  // by a rule
  };
  struct Reset {
    CounterId counter;
  };
  struct Said {
    FactId fact;
    Value value;
    Instant learned;
    bool answered;
    Instant counts_from;
  };  // or known from a deed
  struct Did {
    ActionId action;
    Outcome outcome;
    Instant when;
    bool here;
  };  // of the step one was in
  struct Rang {
    Contact contact;
    Duration answer_within;
    bool urgent;  // the step says "now"
  };
  struct MovedOn {
    Contact contact;
  };  // nobody answered
  struct Heard {
    ActionId action;
    Outcome outcome;
  };  // how a call of the step went
  struct AnsweredCalls {
    bool emergency;
  };  // of the emergency services, or of the clinic's side
  struct OnTheLine {
    bool answered;
  };  // the emergency services, or nobody there any more
  struct OpeningAsked {};
  struct OpeningDropped {};
  struct Noticed {
    FactId fact;
  };  // a watch for news fired on it
  struct ClinicSaid {
    std::string text;
  };
  struct GaveUp {};
  struct BegunAgain {};  // after the end; the time of the calls that are open begins anew
  struct Promised {
    Instant ends;
  };  // a check that was shown before a correction is made no later
  using What = std::variant<Entered, LedOn, Reset, Said, Did, Rang, MovedOn, Heard, AnsweredCalls, OnTheLine, OpeningAsked,
                            OpeningDropped, Noticed, ClinicSaid, GaveUp, BegunAgain, Promised>;
  struct Line {
    Instant at;
    What what;
    int told;       // how many events had been told
    Instant lived;  // how far time had passed: earlier than `at` while it stands still
    Instant said;   // when it happened: earlier than `at` where it is told again
  };
  /// An event of the script. From where a correction leads elsewhere time stands still, until it catches up at the
  /// correction.
  struct Told {
    Event event;
    enum class Time { passes, stands_still, catches_up } time = Time::passes;
    std::optional<Instant> again{};
    std::optional<std::pair<TimerId, Instant>> promised{};
  };
  struct OpenNow {
    Contact contact;
    Instant since;
    Duration answer_within;
    bool wanted;  // a step asked for it
    bool urgent;
  };
  struct Latest {
    Value value;
    std::size_t line;
    Instant learned;
    Instant counts_from;
    int told;
  };

  // naive_walk.cpp: time
  bool is(Variant variant) const { return (variant_ == variant) != is_in_force(variant); }
  void begin();
  void take(const Told& told);
  Instant pass_time(const Told& told);
  void tell(const Told& told, Instant then);
  void live_until(Instant then);
  void catch_up(Instant now);
  Instant due(Instant now) const { return still_at_ ? std::min(now, *still_at_) : now; }
  void beat_at(Instant now);
  bool something_follows(Instant now);
  bool call_moves_on(Instant now);
  bool follow_watch(Instant now);
  bool follow_rule(Instant now);
  bool something_happens_at(Instant now) const;
  void note(Instant now, What what) {
    diary_.push_back(Line{shown_from_ ? std::max(now, *shown_from_) : now, std::move(what), told_, due(now), now});
  }
  Instant clock_shows(Moment moment);

  // naive_diary.cpp: questions to the diary
  std::size_t entry() const;
  const Step& step() const;
  Instant entered() const { return diary_[entry()].at; }
  int counted(CounterId counter) const;
  std::optional<Latest> latest(FactId fact) const;
  std::optional<Outcome> outcome_here(ActionId action) const;
  bool was_given(const Did& did) const;
  bool counts(const Did& did) const;
  Value as_it_stands(FactId fact, const Value& value, Instant now) const;
  std::optional<Instant> timer(TimerId timer) const;
  bool on_the_line() const;
  std::vector<OpenNow> open_calls() const;
  std::vector<FactId> opening_left() const;
  Instant asked_since(Instant now) const;
  bool ended() const;
  bool abandoned() const;
  std::optional<Instant> wait_starts(Instant now, Instant* told_at = nullptr) const;
  std::optional<Instant> wait_ends(Instant now) const;
  bool waiting(Instant now) const;
  bool led_on_before(FactId fact, std::size_t line) const;
  bool told_here(FactId fact) const;
  std::vector<FactId> questions_left(Instant now) const;
  bool all_actions_told(Instant now) const;
  Urgency urgency() const;

  // naive_conditions.cpp
  Context context(Instant now) const;
  const Limit& limit(ThresholdId id, Instant now) const;
  Duration time(ThresholdId id, Instant now) const { return std::get<Duration>(limit(id, now)); }
  std::optional<Value> value(FactId fact, Instant now) const;
  bool holds(const Conditions& conditions, Instant now, bool unanswered_is_unknown) const;
  bool holds(const Condition& condition, Instant now, bool unanswered_is_unknown) const;
  bool applies(ActionId action, Instant now) const { return holds(p()[action].when, now, true); }
  bool is_shown(ActionId action, Instant now) const;
  std::optional<std::size_t> rule(Instant now) const;
  std::optional<std::size_t> early_rule(Instant now) const;
  std::optional<std::size_t> watch(Instant now) const;
  std::vector<FactId> read_by(const Watch& watch) const;
  bool is_news(const Watch& watch) const;
  bool is_dangerous(const Watch& watch) const;
  bool is_of_the_opening(const Watch& watch) const;
  static bool leads_on_only(const Step& step) { return step.asks.empty() && step.actions.empty() && !step.wait; }
  bool was_noticed(FactId fact) const;

  // naive_events.cpp
  void enter(StepId step, Instant now);
  void say(const Answers& answers, Instant now);
  void deed(const Deed& deed, Instant now, const Moment& at);
  void called(const Called& called, Instant now);
  Done everything_stated(Instant now) const;
  static std::vector<Told> believed(std::vector<Told> script, const Answers& corrected, Moment at);
  std::vector<Told> corrected(const Answers& answers, Moment at) const;
  std::optional<ActionKind> given_wrongly(const std::vector<Told>& now_believed) const;
  bool is_looked_out_for(const Answers& answers, Instant now) const;
  bool stands_as(const NaiveWalk& other, Instant now) const;

  const Protocol& p() const { return *protocol_; }
  const Protocol* protocol_;  // pointers, so that a walk can be copied over another
  const Child* child_;
  Moment begins_;
  Duration beat_;
  Variant variant_;
  std::vector<Told> script_;           // as it is believed now
  std::optional<Instant> still_at_;    // time stands still here
  std::optional<Instant> shown_from_;  // nothing of what is told again was shown before this
  std::vector<Line> diary_;
  Instant last_beat_;
  bool after_applied_ = true;  // the wait hangs on an action that was for this child when the step was entered
  bool stirred_ = false;       // something happened in this beat
  Instant last_wall_;
  Duration lost_{0};
  std::chrono::minutes offset_{0};
  int told_ = 0;
  Language language_;
  bool clock_went_back_ = false;
  bool in_circles_ = false;
};

}  // namespace rushlight::naive
