#include "episode/settle.hpp"

#include <algorithm>

#include "episode/dose_result.hpp"
#include "episode/insulin.hpp"

namespace rushlight {
namespace {

// The checks prove that rules lead to a question, a wait or an end after a few steps; this only keeps an unchecked
// protocol from turning for ever.
constexpr int kMostStepsAtOnce = 1000;

// A counter is compared with small limits only; it stops here instead of wrapping.
constexpr int kMostCounted = 1'000'000;

bool is_answered(const Episode& episode, const Ask& ask, Instant since, std::optional<Duration> fresh, Instant now) {
  if (ask.fact.index < kChildFacts) return true;
  const std::optional<Known>& known = episode.facts[ask.fact.index];
  if (!known) return false;
  if (fresh && now - known->learned <= *fresh) return true;
  return is_told_since(episode, ask.fact, since);
}

/// A call action calls; an insulin action calls where its dose is the clinic's to say.
bool calls_now(const Scene& scene, const Action& action) {
  if (is_call(action.kind)) return true;
  return is_for_the_clinic(scene, action);
}

}  // namespace

struct Settling::Deadline {
  enum class Kind : std::uint8_t { wait_starts, wait_ends, overdue, call_unanswered } kind;
  Instant at;
  std::size_t call = 0;
};

Duration Settling::time_in(ThresholdId id, Instant now) const {
  const auto* time = std::get_if<Duration>(&value_in(protocol_[id], scene(now).context));
  return time != nullptr ? *time : Duration{0};
}

void Settling::enter(StepId id, const Cause& cause, Instant now) {
  const Step& step = protocol_[id];
  // A calmer step that is only passed through at one moment is not the end of an emergency.
  if (protocol_[episode_.step].urgency != Urgency::emergency && now > episode_.entered) episode_.on_the_line = false;
  const Instant shown = shown_at(now);
  episode_.step = id;
  episode_.entered = shown;
  episode_.entered_by = episode_.events;
  episode_.cause = cause;
  episode_.deeds.clear();
  episode_.insulin_said = false;
  episode_.wait_ends.reset();
  episode_.wait_passed = false;
  if (step.counts) {
    int& counted = episode_.counted[step.counts->index];
    counted = std::min(counted + 1, kMostCounted);
  }
  const Scene at_entry = scene(now);
  for (const ActionId action_id : step.actions) {
    const Action& action = protocol_[action_id];
    if (action.call && applies(at_entry, action) && calls_now(at_entry, action)) {
      episode_.called_for = action_id;
      if (action.call->contact == Contact::emergency && episode_.on_the_line) {
        episode_.deeds.push_back(Given{action_id, Outcome::reached, std::nullopt, now});  // whoever is on the line is told
      } else {
        open_call_of(action, shown);
      }
    }
  }
  if (step.wait && (!step.wait->after || !applies(at_entry, protocol_[*step.wait->after]))) {
    start_wait(shown, now);
  }
  for (const Given& reached : episode_.deeds) start_wait_after(reached.action, now, now);
  if (std::any_of(step.actions.begin(), step.actions.end(), [&](ActionId each) {
        return protocol_[each].kind == ActionKind::fluid && applies(at_entry, protocol_[each]);
      }) && !episode_.drinking_since)
    episode_.drinking_since = shown;
  // A visit goes back to where it was called from; only an emergency ends everything.
  const bool visit_is_over = step.ends_visit || (step.ends && step.urgency != Urgency::emergency);
  if (episode_.visit && visit_is_over) return come_back(cause, now);
  episode_.ended = step.ends;
  if (step.ends && step.urgency == Urgency::home) calm_calls();
}

// Common practice, no source: within a day the clinic has hours.
constexpr std::chrono::hours kAnswerByTomorrow{24};

// Where all is well again, nobody calls an ambulance only because the clinic was silent hours ago: the clinic is told.
void Settling::calm_calls() {
  std::vector<OpenCall> kept;
  for (OpenCall call : episode_.calls) {
    if (!call.by_step) call = OpenCall{Contact::clinic, call.opened, kAnswerByTomorrow};
    if (std::none_of(kept.begin(), kept.end(), [&](const OpenCall& each) { return each.contact == call.contact; }))
      kept.push_back(call);
  }
  episode_.calls = std::move(kept);
}

void Settling::start_wait_after(ActionId action, Instant when, Instant now) {
  const Step& step = protocol_[episode_.step];
  if (!step.wait || episode_.wait_ends || step.wait->after != action) return;
  // A deed told late counts from when it was done, in this step; what is over by then is due at the telling, not in the
  // past.
  start_wait(std::max(when, episode_.entered), now);
  episode_.wait_ends = std::max(*episode_.wait_ends, now);
}

void Settling::start_wait_without_dose(Instant now) {
  const std::optional<Wait>& wait = protocol_[episode_.step].wait;
  if (!wait || !wait->after || episode_.deeds.empty() || episode_.ended) return;
  const ActionId dose = *wait->after;
  if (protocol_[dose].kind == ActionKind::insulin && is_for_the_clinic(scene(now), protocol_[dose]))
    start_wait_after(dose, now, now);
}

void Settling::start_wait(Instant when, Instant now) {
  const Wait& wait = *protocol_[episode_.step].wait;
  const Duration lasts = time_in(wait.lasts, now);
  episode_.wait_ends = when + lasts;
  // Whoever waits for insulin to stop working waits no longer than that, and no dose is looked for in the past.
  const std::optional<Instant> insulin = wait.insulin_again ? last_rapid_insulin(scene(now)) : std::nullopt;
  if (insulin) {
    const Instant again = *insulin + time_in(*wait.insulin_again, now);
    episode_.wait_ends = std::min(*episode_.wait_ends, std::max(again, when));
  }
  if (lasts > Duration{0}) ++episode_.waits;
}

void Settling::open_call(Contact contact, Duration answer_within, Instant now) {
  auto open = std::find_if(episode_.calls.begin(), episode_.calls.end(),
                           [&](const OpenCall& call) { return call.contact == contact; });
  if (open == episode_.calls.end()) open = episode_.calls.insert(open, OpenCall{contact, now, answer_within});
  // One that could wait for the morning can no longer.
  if (open->may_wait() && answer_within < open->answer_within) {
    open->opened = now;
    open->answer_within = answer_within;
  }
  open->by_step = true;
  open->now = open->now || protocol_[episode_.step].urgency >= Urgency::clinic_now;
}

std::vector<ActionId> Settling::doses_to_call_for(Instant now) const {
  std::vector<ActionId> actions;
  const Scene here = scene(now);
  for (const ActionId id : protocol_[episode_.step].actions) {
    const Action& action = protocol_[id];
    if (!action.call || is_call(action.kind) || is_over(episode_, id)) continue;
    if (applies(here, action) && calls_now(here, action)) actions.push_back(id);
  }
  return actions;
}

void Settling::escalate(std::size_t place, Instant now, bool unsaid) {
  const OpenCall unanswered = episode_.calls[place];
  if (unanswered.contact == Contact::emergency) {
    episode_.calls[place].opened = std::max(now, unanswered.opened);
    return;
  }
  episode_.calls.erase(episode_.calls.begin() + static_cast<std::ptrdiff_t>(place));
  const Contact next = unanswered.contact == Contact::clinic ? Contact::on_call : Contact::emergency;
  const auto open = std::find_if(episode_.calls.begin(), episode_.calls.end(),
                                 [&](const OpenCall& call) { return call.contact == next; });
  if (open == episode_.calls.end()) {
    const Instant moved =
        std::max(now, unanswered.opened);  // a night told again asks for a call later than it was answered
    episode_.calls.push_back(OpenCall{next, moved, unanswered.answer_within, true, false, unanswered.now, unsaid});
  } else {
    open->unsaid = unsaid && (open->unsaid || !open->moved_on);
    open->moved_on = true;
  }
}

std::optional<Settling::Deadline> Settling::next_deadline(Instant now) const {
  if (episode_.ended) return std::nullopt;
  std::optional<Deadline> next;
  const auto consider = [&](const Deadline& deadline) {
    if (deadline.at <= now && (!next || deadline.at < next->at)) next = deadline;
  };
  const Step& step = protocol_[episode_.step];
  if (step.wait) {
    if (!episode_.wait_ends && step.wait->start_within) {
      consider({Deadline::Kind::wait_starts, episode_.entered + time_in(*step.wait->start_within, episode_.entered)});
    }
    if (episode_.wait_ends && !episode_.wait_passed)
      consider({Deadline::Kind::wait_ends, shown_at(*episode_.wait_ends)});
    if (episode_.wait_ends && episode_.wait_passed) {
      const Instant late = *episode_.wait_ends + time_in(step.wait->overdue, *episode_.wait_ends);
      consider({Deadline::Kind::overdue, shown_at(late)});
    }
  }
  for (std::size_t place = 0; place < episode_.calls.size(); ++place) {
    const OpenCall& call = episode_.calls[place];
    if (call.answer_within > Duration{0}) consider({Deadline::Kind::call_unanswered, call.answer_by(), place});
  }
  return next;
}

void Settling::apply(const Deadline& deadline) {
  const Step& step = protocol_[episode_.step];
  switch (deadline.kind) {
    case Deadline::Kind::wait_starts:
      start_wait(deadline.at, deadline.at);
      break;
    case Deadline::Kind::wait_ends:
      episode_.wait_passed = true;
      break;
    case Deadline::Kind::overdue:
      enter(step.wait->go, Cause{Cause::Kind::overdue, episode_.step, 0, Outcome::given}, deadline.at);
      break;
    case Deadline::Kind::call_unanswered:
      escalate(deadline.call, deadline.at, true);
      break;
  }
}

void Settling::pass_deadlines(Instant now) {
  while (const std::optional<Deadline> deadline = next_deadline(now)) {
    apply(*deadline);
    if (deadline->at >= not_before_) follow_rules(deadline->at);
  }
}

bool Settling::step_is_finished(const Scene& here) const {
  const Step& step = here.protocol[episode_.step];
  if (step.wait && !episode_.wait_passed) return false;
  if (step.wait || !step.asks.empty()) return open_questions(here.protocol, here.child, episode_, here.now).empty();
  return std::all_of(step.actions.begin(), step.actions.end(), [&](ActionId id) {
    return !applies(here, here.protocol[id]) || std::any_of(episode_.deeds.begin(), episode_.deeds.end(),
                                                            [&](const Given& deed) { return deed.action == id; });
  });
}

void Settling::take(const Rule& rule, const Cause& cause, Instant now) {
  const bool hands_over = !rule.hands_over_to.empty();
  // What another protocol is handed is news to it, whatever was noticed before: what was told in the step that hands
  // over, and led nowhere there, counts as told now.
  for (std::size_t place = 0; rule.enters && place < episode_.facts.size(); ++place) {
    std::optional<Known>& known = episode_.facts[place];
    if (!known) continue;
    known->noticed = false;
    if (!is_told_since(episode_, FactId{static_cast<std::uint16_t>(place)}, episode_.entered)) continue;
    known->told_by = episode_.events;
    known->told_again = shown_at(now);
  }
  // One visit at a time: what a visited protocol would go on to is the caller's to decide.
  if (rule.enters && episode_.visit) return come_back(cause, now);
  if (rule.enters && !hands_over) episode_.visit = Visit{episode_.step, rule.go, episode_.events};
  if (rule.enters && hands_over) episode_.handed_over = true;
  enter(rule.enters.value_or(rule.go), cause, now);
}

void Settling::come_back(const Cause& cause, Instant now) {
  const StepId back = episode_.visit->back;
  episode_.visit.reset();
  enter(back, cause, now);
}

std::optional<std::uint16_t> Settling::early_match(const Scene& here) const {
  const Step& step = protocol_[episode_.step];
  if (!step.wait || (episode_.wait_passed && step.urgency != Urgency::emergency)) return std::nullopt;
  for (std::size_t place = 0; place < step.rules.size(); ++place) {
    const Rule& rule = step.rules[place];
    if (!rule.early || rule.when.empty()) continue;
    const bool told = std::all_of(rule.when.begin(), rule.when.end(), [&](const Condition& condition) {
      const std::optional<FactId> fact = question_in(protocol_, condition);
      return fact && is_told_since(episode_, *fact, episode_.entered);
    });
    if (told && all_hold(here, rule.when, Unanswered::holds_nothing)) return static_cast<std::uint16_t>(place);
  }
  return std::nullopt;
}

// News is news once: however often a step that does not handle it is come to, the same answer never leads there again.
// What waited for the opening questions counts as told now, with what it leads to.
void Settling::notice(const Watch& watch, Instant now) {
  for (const Condition& condition : watch.when) {
    const std::optional<FactId> fact = question_in(protocol_, condition);
    if (!fact) continue;
    Known& known = *episode_.facts[fact->index];
    known.noticed = true;
    known.told_by = episode_.events;
    known.told_again = shown_at(now);
  }
}

void Settling::follow_rules(Instant now) {
  for (int steps = 0; steps < kMostStepsAtOnce && !episode_.ended; ++steps) {
    const Scene here = scene(now);
    const Step& step = protocol_[episode_.step];
    if (const auto watch = watch_that_fires(here, step)) {
      const Watch& fires = protocol_.watch[*watch];
      // Danger that is seen comes first: nothing else is asked before its step. A number, a worry or a wrong dose is
      // called about while the child is looked at.
      if (reads_the_opening(protocol_, fires) || (!fires.told && leads_to_danger(protocol_, fires))) episode_.opening.clear();
      if (fires.told) notice(fires, now);
      const StepId to = fires.go;
      if (protocol_.part_of(to) != protocol_.part_of(episode_.step)) episode_.visit.reset();  // the caller's danger
      enter(to, Cause{Cause::Kind::watch, episode_.step, *watch, Outcome::given}, now);
      continue;
    }
    if (!episode_.opening.empty() && !only_leads_on(step)) return;
    // In an emergency what leads on during a wait leads on after it too, while another question is still open: a low does
    // not wait for it.
    const std::optional<std::uint16_t> rule = step_is_finished(here) ? first_match(here, step) : early_match(here);
    if (!rule) return;
    for (const CounterId counter : step.rules[*rule].resets) episode_.counted[counter.index] = 0;
    for (const MarkId mark : step.rules[*rule].sets) {
      // What counts as the same does not move the mark: small rises add up until they are one.
      if (change_since(here, mark) != Change::stayed) episode_.marks[mark.index] = value_of(here, protocol_[mark].fact);
    }
    for (const Ask& ask : step.asks) {
      if (std::optional<Known>& known = episode_.facts[ask.fact.index]) known->used = true;
    }
    take(step.rules[*rule], Cause{Cause::Kind::rule, episode_.step, *rule, Outcome::given}, now);
  }
}

bool is_over(const Episode& episode, ActionId action) {
  return std::any_of(episode.deeds.begin(), episode.deeds.end(),
                     [&](const Given& deed) { return deed.action == action && !is_nothing(deed.amount); });
}

bool applies(const Scene& scene, const Action& action) {
  return all_hold(scene, action.when, Unanswered::is_cant_tell);
}

std::vector<FactId> open_questions(const Protocol& protocol, const Child& child, const Episode& episode, Instant now) {
  if (episode.ended) return {};
  if (!episode.opening.empty()) return episode.opening;
  const Step& step = protocol[episode.step];
  if (step.wait && !episode.wait_passed) return {};
  const Instant since = step.wait ? *episode.wait_ends : episode.entered;
  const Scene here = scene_at(protocol, child, episode, now);
  std::vector<FactId> open;
  for (const Ask& ask : step.asks) {
    std::optional<Duration> fresh;
    if (ask.fresh) {
      if (const auto* time = std::get_if<Duration>(&value_in(protocol[*ask.fresh], here.context))) fresh = *time;
    }
    if (!is_answered(episode, ask, since, fresh, now)) open.push_back(ask.fact);
  }
  return open;
}

Urgency urgency_of(const Protocol& protocol, const Episode& episode) {
  Urgency gravest = protocol[episode.step].urgency;
  if (episode.visit) gravest = worst(gravest, protocol[episode.visit->from].urgency);
  for (const OpenCall& call : episode.calls) {
    const bool clinic_now = call.contact == Contact::on_call || call.now;
    gravest = worst(gravest, call.contact == Contact::emergency ? Urgency::emergency
                             : clinic_now                       ? Urgency::clinic_now
                                                                : Urgency::clinic);
  }
  return gravest;
}

}  // namespace rushlight
