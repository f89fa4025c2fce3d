#pragma once

#include <algorithm>

#include "episode/fold.hpp"

namespace rushlight {

/// Something became of the action in this step; a dose of nothing leaves it open.
bool is_over(const Episode& episode, ActionId action);

inline bool is_clinic_side(Contact contact) { return contact != Contact::emergency; }

/// What happens without anybody saying anything: deadlines pass, waits end, rules lead on. Used by the fold only.
class Settling {
 public:
  /// `not_before`: the moment of a correction that tells the night again. What is told is judged as of when it was
  /// told; but a step is entered, a call opens and a wait ends at that moment at the earliest: nobody was shown them
  /// before.
  Settling(const Protocol& protocol, const Child& child, Episode& episode, Instant not_before = Instant::min())
      : protocol_(protocol), child_(child), episode_(episode), not_before_(not_before) {}

  /// Applies every deadline up to and including `now`, in the order in which they passed.
  void pass_deadlines(Instant now);

  /// Follows watch rules, then the step's rules, as far as they lead at `now`.
  void follow_rules(Instant now);

  void enter(StepId step, const Cause& cause, Instant now);

  /// Starts the step's wait at `when` if it hangs on `action` and has not started.
  void start_wait_after(ActionId action, Instant when, Instant now);

  /// Starts a wait that hangs on insulin of which the clinic says how much: the rest of the step is done.
  void start_wait_without_dose(Instant now);

  void open_call(Contact contact, Duration answer_within, Instant now);
  void open_call_of(const Action& action, Instant now) {
    open_call(action.call->contact, time_in(action.call->answer_within, now), now);
  }
  /// The step's actions whose dose the clinic has to say, and that nobody has said anything of yet.
  std::vector<ActionId> doses_to_call_for(Instant now) const;
  /// Moves the call at `place` to the next contact; an emergency call stays and is to be made again. `unsaid`: nobody
  /// said that there was no answer.
  void escalate(std::size_t place, Instant now, bool unsaid);

  Scene scene(Instant now) const { return scene_at(protocol_, child_, episode_, now); }

 private:
  struct Deadline;
  std::optional<Deadline> next_deadline(Instant now) const;
  void apply(const Deadline& deadline);
  void start_wait(Instant when, Instant now);
  Instant shown_at(Instant now) const { return std::max(now, not_before_); }
  bool step_is_finished(const Scene& scene) const;
  void notice(const Watch& watch, Instant now);
  void take(const Rule& rule, const Cause& cause, Instant now);
  void come_back(const Cause& cause, Instant now);
  void calm_calls();
  std::optional<std::uint16_t> early_match(const Scene& scene) const;
  Duration time_in(ThresholdId id, Instant now) const;

  const Protocol& protocol_;
  const Child& child_;
  Episode& episode_;
  Instant not_before_;
};

}  // namespace rushlight
