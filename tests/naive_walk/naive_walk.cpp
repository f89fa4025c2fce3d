#include "naive_walk.hpp"

#include <algorithm>

namespace rushlight::naive {

NaiveWalk::NaiveWalk(const Protocol& protocol, const Child& child, Moment begins, Duration beat, Variant variant)
    : protocol_(&protocol), child_(&child), begins_(begins), beat_(beat), variant_(variant) {
  begin();
}

void NaiveWalk::begin() {
  diary_.clear();
  still_at_.reset();
  shown_from_.reset();
  last_wall_ = begins_.utc;
  last_beat_ = begins_.utc;
  lost_ = Duration{0};
  offset_ = begins_.offset;
  language_ = child_->language;
  clock_went_back_ = false;
  told_ = 0;
  note(begins_.utc, OpeningAsked{});
  enter(p().start, begins_.utc);
  stirred_ = true;
  beat_at(begins_.utc);
}

/// The moment in the episode's own time, in which a wall clock that is set back loses nothing.
Instant NaiveWalk::clock_shows(Moment moment) {
  if (moment.utc < last_wall_) {
    clock_went_back_ = true;
    if (!is(Variant::clock_shrinks_time)) lost_ += last_wall_ - moment.utc;
  }
  last_wall_ = moment.utc;
  return moment.utc + lost_;
}

void NaiveWalk::live_until(Instant then) {
  while (last_beat_ + beat_ < then) {
    last_beat_ += beat_;
    beat_at(last_beat_);
  }
  last_beat_ = std::max(last_beat_, then);
  beat_at(last_beat_);
}

/// Nobody was shown what would have been due: it is due now. Who was called before has answered or not in the meantime.
void NaiveWalk::catch_up(Instant now) {
  still_at_ = last_beat_;
  while (last_beat_ + beat_ < now) {
    last_beat_ += beat_;
    still_at_ = last_beat_;
    while (!ended() && call_moves_on(last_beat_)) {}
  }
  last_beat_ = std::max(last_beat_, now);
  still_at_ = now;
  const std::optional<Instant> ends = wait_ends(now);
  if (!ended() && ends && *ends <= now) {  // first its questions and rules, then whether it is late
    still_at_ = *ends;
    stirred_ = true;
    beat_at(now);
  }
  still_at_.reset();
  stirred_ = false;
  beat_at(now);
}

void NaiveWalk::beat_at(Instant now) {
  constexpr int kMost = 100;
  stirred_ = stirred_ || something_happens_at(now) || is(Variant::time_alone_leads_on);
  for (int i = 0; i < kMost && !in_circles_; ++i) {
    if (something_follows(now)) continue;
    stirred_ = false;
    return;
  }
  in_circles_ = true;
}

/// A wait that starts or ends. Between such moments and what is said, rules and watches are not looked at.
bool NaiveWalk::something_happens_at(Instant now) const {
  if (ended() || !step().wait) return false;
  return wait_starts(now) == now || wait_ends(now) == now;
}

bool NaiveWalk::call_moves_on(Instant now) {
  if (ended() && !is(Variant::calls_move_on_after_the_end)) return false;
  for (const OpenNow& call : open_calls()) {
    const Instant due = call.since + call.answer_within;
    if (this->due(now) < due || call.answer_within <= Duration{0} || is(Variant::calls_wait_for_ever)) continue;
    if (call.contact == Contact::emergency && is(Variant::emergency_is_called_once)) continue;
    note(now, MovedOn{call.contact});
    return stirred_ = true;
  }
  return false;
}

/// "How a step runs", from top to bottom; true when it led to something new.
bool NaiveWalk::something_follows(Instant now) {
  if (ended()) return call_moves_on(now);
  if (step().wait && !waiting(now)) {
    Instant overdue = *wait_ends(now) + time(step().wait->overdue, now);
    if (is(Variant::overdue_a_beat_late)) overdue += beat_;
    if (due(now) >= overdue) {
      enter(step().wait->go, now);
      return stirred_ = true;
    }
  }
  if (!stirred_) return call_moves_on(now);
  const bool steps_first = is(Variant::steps_before_watch);
  if (!steps_first && follow_watch(now)) return true;
  if (follow_rule(now)) return true;
  if (steps_first && follow_watch(now)) return true;
  return call_moves_on(now);
}

bool NaiveWalk::follow_watch(Instant now) {
  const std::optional<std::size_t> fires = watch(now);
  if (!fires) return false;
  const Watch& watch = p().watch[*fires];
  const bool drops = is_of_the_opening(watch) || (!watch.told && is_dangerous(watch));
  if (drops && !is(Variant::opening_questions_outlive_a_watch)) note(now, OpeningDropped{});
  if (p().watch[*fires].told) {
    for (const FactId fact : read_by(p().watch[*fires])) note(now, Noticed{fact});
  }
  enter(p().watch[*fires].go, now);
  return true;
}

bool NaiveWalk::follow_rule(Instant now) {
  if (!opening_left().empty() && !leads_on_only(step())) return false;
  std::optional<std::size_t> matches;
  if (waiting(now) || (step().wait && step().urgency == Urgency::emergency && !questions_left(now).empty())) {
    matches = early_rule(now);
  } else {
    if (!questions_left(now).empty()) return false;
    if (!step().wait && step().asks.empty() && !all_actions_told(now)) return false;
    matches = rule(now);
  }
  if (!matches) return false;
  const Rule& taken = step().rules[*matches];
  for (const CounterId counter : taken.resets) note(now, Reset{counter});
  note(now, LedOn{std::get<Entered>(diary_[entry()].what).step});
  enter(taken.go, now);
  return true;
}

Standing NaiveWalk::standing_at(Moment moment) const {
  NaiveWalk later = *this;
  const Instant now = later.clock_shows(moment);
  later.offset_ = moment.offset;
  later.live_until(now);
  const NaiveWalk& walk = later;
  Standing standing{};
  standing.step = walk.step().name;
  standing.urgency = walk.urgency();
  standing.ended = walk.ended();
  standing.abandoned = walk.abandoned();
  standing.waiting = !standing.ended && walk.waiting(now);
  if (!standing.ended) {
    std::vector<FactId> ask = walk.opening_left();
    if (ask.empty() && !standing.waiting) ask = walk.questions_left(now);
    for (const FactId fact : ask) standing.ask.push_back(p()[fact].name);
    if (!ask.empty()) standing.asked_since = walk.asked_since(now) - walk.lost_;
  }
  if (standing.waiting) {
    const Wait& wait = *walk.step().wait;
    Instant latest_start = walk.entered();
    if (wait.start_within) latest_start += walk.time(*wait.start_within, latest_start);
    standing.until = walk.wait_ends(now).value_or(latest_start + walk.time(wait.lasts, latest_start)) - walk.lost_;
  }
  for (std::uint16_t i = 0; i < p().counters.size(); ++i) standing.counters.push_back(walk.counted(CounterId{i}));
  for (std::uint16_t i = 0; i < p().timers.size(); ++i) standing.timers.push_back(walk.timer(TimerId{i}));
  for (const OpenNow& call : walk.open_calls())
    standing.calls.emplace_back(call.contact, call.since + call.answer_within);
  std::sort(standing.calls.begin(), standing.calls.end());
  for (const Line& line : walk.diary_) {
    if (const auto* did = std::get_if<Did>(&line.what)) {
      standing.given.push_back(p()[did->action].name + " " + std::string(name_of(did->outcome)) + " " +
                               text_from_moment(Moment{did->when, {}}));
    } else if (const auto* said = std::get_if<ClinicSaid>(&line.what)) {
      standing.told = said->text;
    }
  }
  for (const ActionId action : walk.step().actions) {
    const std::optional<Outcome> outcome = walk.outcome_here(action);
    standing.outcomes.emplace_back(outcome ? name_of(*outcome) : "");
  }
  standing.clock_went_back = walk.clock_went_back_;
  standing.language = walk.language_;
  standing.in_circles = walk.in_circles_;
  return standing;
}

const char* name_of(Variant variant) {
  constexpr const char* kNames[kVariants] = {"as_agreed",
                                             "wait_ends_a_beat_late",
                                             "overdue_a_beat_late",
                                             "last_rule_wins",
                                             "steps_before_watch",
                                             "calmest_urgency_wins",
                                             "clock_shrinks_time",
                                             "takeover_asks_nothing",
                                             "early_answers_count",
                                             "corrections_count_from_now",
                                             "corrections_take_back_deeds",
                                             "corrections_are_walked_in_the_past",
                                             "corrections_put_checks_off",
                                             "clinic_calls_are_calm",
                                             "told_late_counts_from_telling",
                                             "calls_wait_for_ever",
                                             "emergency_is_called_once",
                                             "part_is_nothing",
                                             "unanswered_fires_watch",
                                             "stale_answers_are_fresh",
                                             "start_within_never_comes",
                                             "end_is_the_end",
                                             "a_reading_is_its_own_check",
                                             "told_together_never_counts",
                                             "unnamed_worse_asks_nothing",
                                             "opening_questions_outlive_a_watch",
                                             "old_news_is_news",
                                             "every_step_calls_anew",
                                             "opening_answers_wait",
                                             "stand_in_calls_outlive_the_night",
                                             "calls_move_on_after_the_end",
                                             "time_alone_leads_on",
                                             "any_outcome_starts_the_wait",
                                             "early_rules_wait_too",
                                             "stand_in_calls_stay",
                                             "all_done_empties_the_cup"};
  return kNames[static_cast<int>(variant)];
}

}  // namespace rushlight::naive
