#include <algorithm>

#include "naive_walk.hpp"

namespace rushlight::naive {

std::size_t NaiveWalk::entry() const {
  std::size_t i = diary_.size();
  while (!std::holds_alternative<Entered>(diary_[--i].what)) {}
  return i;
}

const Step& NaiveWalk::step() const { return p()[std::get<Entered>(diary_[entry()].what).step]; }

/// Once each time a step that counts is entered and each time an action that counts is given, from nought at a reset
/// on.
int NaiveWalk::counted(CounterId counter) const {
  int count = 0;
  for (const Line& line : diary_) {
    if (const auto* reset = std::get_if<Reset>(&line.what); reset && reset->counter == counter) count = 0;
    if (const auto* entered = std::get_if<Entered>(&line.what); entered && p()[entered->step].counts == counter)
      ++count;
    if (const auto* did = std::get_if<Did>(&line.what)) {
      if (p()[did->action].counts == counter && counts(*did)) ++count;
    }
  }
  return count;
}

std::optional<NaiveWalk::Latest> NaiveWalk::latest(FactId fact) const {
  for (std::size_t i = diary_.size(); i-- > 0;) {
    const auto* said = std::get_if<Said>(&diary_[i].what);
    if (said == nullptr || said->fact != fact) continue;
    Latest latest{said->value, i, said->learned, said->counts_from, diary_[i].told};
    for (; i < diary_.size(); ++i) {
      const auto* noticed = std::get_if<Noticed>(&diary_[i].what);
      if (noticed == nullptr || noticed->fact != fact) continue;
      latest.counts_from = diary_[i].at;
      latest.told = diary_[i].told;
    }
    return latest;
  }
  return std::nullopt;
}

std::optional<Outcome> NaiveWalk::outcome_here(ActionId action) const {
  std::optional<Outcome> outcome;
  for (std::size_t i = entry(); i < diary_.size(); ++i) {
    const auto* did = std::get_if<Did>(&diary_[i].what);
    if (did != nullptr && did->action == action && did->here) outcome = did->outcome;
    if (const auto* heard = std::get_if<Heard>(&diary_[i].what); heard && heard->action == action) {
      if (heard->outcome != Outcome::no_answer) outcome = heard->outcome;  // who was not reached is still to be called
    }
  }
  return outcome;
}

/// Wholly or in part.
bool NaiveWalk::was_given(const Did& did) const {
  return did.outcome == Outcome::given || (did.outcome == Outcome::part && !is(Variant::part_is_nothing));
}

/// A wrong dose was given too: it counts, although it was not what was advised.
bool NaiveWalk::counts(const Did& did) const { return was_given(did) || did.outcome == Outcome::wrong; }

bool NaiveWalk::is_shown(ActionId action, Instant now) const {
  const std::vector<ActionId>& here = step().actions;
  return std::find(here.begin(), here.end(), action) != here.end() && applies(action, now);
}

std::optional<Instant> NaiveWalk::timer(TimerId timer) const {
  std::optional<Instant> until;
  for (const Line& line : diary_) {
    const auto* did = std::get_if<Did>(&line.what);
    if (did == nullptr || !was_given(*did)) continue;
    const Action& action = p()[did->action];
    if (action.starts && action.starts->timer == timer) until = did->when + time(action.starts->lasts, did->when);
    if (action.stops == timer) until.reset();
  }
  return until;
}

/// One for each contact: calling somebody who is being called already is the same call.
std::vector<NaiveWalk::OpenNow> NaiveWalk::open_calls() const {
  std::vector<OpenNow> open;
  const auto find = [&open](Contact contact) {
    return std::find_if(open.begin(), open.end(), [contact](const OpenNow& call) { return call.contact == contact; });
  };
  // At an end where all is well, behind the calls that the end itself wants.
  bool all_is_well = false;
  const auto calm = [&] {
    if (!all_is_well || is(Variant::stand_in_calls_outlive_the_night)) return;
    std::vector<OpenNow> kept;
    for (OpenNow call : open) {
      if (!call.wanted) call = OpenNow{Contact::clinic, call.since, std::chrono::hours{24}, true, false};
      if (std::none_of(kept.begin(), kept.end(), [&](const OpenNow& each) { return each.contact == call.contact; }))
        kept.push_back(call);
    }
    open = std::move(kept);
  };
  for (const Line& line : diary_) {
    if (!std::holds_alternative<Rang>(line.what)) {
      calm();
      all_is_well = false;
    }
    if (const auto* entered = std::get_if<Entered>(&line.what)) {
      const Step& step = p()[entered->step];
      all_is_well = step.ends && step.urgency == Urgency::home;
    }
    if (const auto* rang = std::get_if<Rang>(&line.what)) {
      if (find(rang->contact) == open.end())
        open.push_back(OpenNow{rang->contact, line.at, rang->answer_within, true, false});
      const auto call = find(rang->contact);
      const bool could_wait = call->answer_within > std::chrono::hours{1};
      if (could_wait && rang->answer_within < call->answer_within) {  // for the morning, and now no longer
        call->since = line.at;
        call->answer_within = rang->answer_within;
      }
      find(rang->contact)->wanted = true;
      if (rang->urgent) find(rang->contact)->urgent = true;
    } else if (const auto* moved = std::get_if<MovedOn>(&line.what)) {
      const auto call = find(moved->contact);
      const Duration within = call->answer_within;
      const bool urgent = call->urgent;
      if (moved->contact == Contact::emergency) {  // nobody comes after: the same call is made again
        call->since = line.at;
        continue;
      }
      open.erase(call);
      const Contact next = moved->contact == Contact::clinic ? Contact::on_call : Contact::emergency;
      if (find(next) == open.end()) open.push_back(OpenNow{next, line.at, within, false, urgent});
    } else if (std::holds_alternative<BegunAgain>(line.what)) {
      for (OpenNow& call : open) call.since = line.at;
    } else if (const auto* answered = std::get_if<AnsweredCalls>(&line.what)) {
      open.erase(std::remove_if(open.begin(), open.end(),
                                [this, answered](const OpenNow& call) {
                                  if (!answered->emergency && !call.wanted && !is(Variant::stand_in_calls_stay))
                                    return true;
                                  return (call.contact == Contact::emergency) == answered->emergency;
                                }),
                 open.end());
    }
  }
  calm();
  return open;
}

/// Since the emergency services answered last, nobody said otherwise, and no step calmer than an emergency lasted.
bool NaiveWalk::on_the_line() const {
  bool on = false;
  const Line* before = nullptr;
  for (const Line& line : diary_) {
    if (const auto* said = std::get_if<OnTheLine>(&line.what)) on = said->answered;
    if (!std::holds_alternative<Entered>(line.what)) continue;
    const bool calmer = before != nullptr && p()[std::get<Entered>(before->what).step].urgency != Urgency::emergency;
    if (calmer && line.at > before->at) on = false;
    before = &line;
  }
  return on;
}

std::vector<FactId> NaiveWalk::opening_left() const {
  std::size_t asked = diary_.size();
  while (!std::holds_alternative<OpeningAsked>(diary_[--asked].what)) {
    if (std::holds_alternative<OpeningDropped>(diary_[asked].what)) return {};
  }
  std::vector<FactId> left;
  for (const Ask& ask : p().opening) {
    bool answered = false;
    for (std::size_t i = asked; i < diary_.size(); ++i) {
      const auto* said = std::get_if<Said>(&diary_[i].what);
      answered = answered || (said != nullptr && said->fact == ask.fact && said->answered);
    }
    if (!answered) left.push_back(ask.fact);
  }
  return left;
}

/// The opening questions since somebody began, took over or saw something worse; the step's since it or its wait's end.
Instant NaiveWalk::asked_since(Instant now) const {
  if (opening_left().empty()) return std::max(entered(), wait_ends(now).value_or(entered()));
  std::size_t asked = diary_.size();
  while (!std::holds_alternative<OpeningAsked>(diary_[--asked].what)) {}
  return diary_[asked].at;
}

bool NaiveWalk::abandoned() const {
  for (std::size_t i = entry(); i < diary_.size(); ++i) {
    if (std::holds_alternative<GaveUp>(diary_[i].what)) return true;
  }
  return false;
}

bool NaiveWalk::ended() const { return step().ends || abandoned(); }

/// When the action it hangs on got its first outcome here, if that was told before `start-within` passed; then it is
/// assumed. An action that is not for this child holds no wait up.
std::optional<Instant> NaiveWalk::wait_starts(Instant now, Instant* told_at) const {
  const Wait& wait = *step().wait;
  if (!wait.after || !after_applied_) return entered();
  std::optional<Instant> assumed;
  if (wait.start_within && !is(Variant::start_within_never_comes))
    assumed = entered() + time(*wait.start_within, entered());
  for (std::size_t i = entry(); i < diary_.size(); ++i) {
    if (assumed && diary_[i].lived >= *assumed) break;
    if (const auto* heard = std::get_if<Heard>(&diary_[i].what); heard && heard->action == *wait.after)
      return std::max(diary_[i].said, entered());
    const auto* did = std::get_if<Did>(&diary_[i].what);
    if (did == nullptr || !(did->action == *wait.after) || !did->here) continue;
    const bool follows = was_given(*did) || p()[did->action].on[static_cast<std::size_t>(did->outcome)];
    // Nobody gave it for this step before the step was there.
    if (!follows && !is(Variant::any_outcome_starts_the_wait)) continue;
    if (told_at != nullptr) *told_at = diary_[i].said;
    return std::max(did->when, entered());
  }
  if (assumed && *assumed <= due(now)) return assumed;
  return std::nullopt;
}

std::optional<Instant> NaiveWalk::wait_ends(Instant now) const {
  if (!step().wait) return std::nullopt;
  Instant told_at = entered();
  const std::optional<Instant> starts = wait_starts(now, &told_at);
  if (!starts) return std::nullopt;
  // What was over before anybody told of it is due at the telling.
  Instant ends = std::max(*starts + time(step().wait->lasts, *starts), told_at);
  if (is(Variant::wait_ends_a_beat_late)) ends += beat_;
  for (std::size_t i = entry(); i < diary_.size(); ++i) {
    if (const auto* promised = std::get_if<Promised>(&diary_[i].what)) ends = std::min(ends, promised->ends);
  }
  return ends;
}

bool NaiveWalk::waiting(Instant now) const {
  if (!step().wait) return false;
  const std::optional<Instant> ends = wait_ends(now);
  return !ends || due(now) < *ends;
}

/// Whether, since that line, a rule led on from a step that asks for the fact.
bool NaiveWalk::led_on_before(FactId fact, std::size_t line) const {
  if (is(Variant::a_reading_is_its_own_check)) return false;
  for (std::size_t i = line; i < diary_.size(); ++i) {
    const auto* led = std::get_if<LedOn>(&diary_[i].what);
    if (led == nullptr) continue;
    for (const Ask& ask : p()[led->from].asks) {
      if (ask.fact == fact) return true;
    }
  }
  return false;
}

/// Told since the step was entered, or with what led here and not used on the way.
bool NaiveWalk::told_here(FactId fact) const {
  const std::optional<Latest> said = latest(fact);
  if (!said || said->counts_from < entered()) return false;
  const int here = diary_[entry()].told;
  const bool together = said->told == here && !is(Variant::told_together_never_counts);
  return said->told > here || (together && !led_on_before(fact, said->line));
}

/// Of the step: those whose latest answer was neither told in the step (after its wait), nor with what led here, nor is
/// fresh.
std::vector<FactId> NaiveWalk::questions_left(Instant now) const {
  std::vector<FactId> left;
  for (const Ask& ask : step().asks) {
    const std::optional<Latest> said = latest(ask.fact);
    bool counts = false;
    if (said) {
      const bool own = said->told > diary_[entry()].told;
      const bool together = said->told == diary_[entry()].told && !is(Variant::told_together_never_counts);
      const bool in_time = !step().wait ? said->counts_from >= entered() : said->counts_from >= *wait_ends(now);
      counts =
          (own || (together && !led_on_before(ask.fact, said->line))) && (in_time || is(Variant::early_answers_count));
      if (ask.fresh && (now - said->learned <= time(*ask.fresh, now) || is(Variant::stale_answers_are_fresh)))
        counts = true;
    }
    if (!counts) left.push_back(ask.fact);
  }
  return left;
}

bool NaiveWalk::all_actions_told(Instant now) const {
  for (const ActionId action : step().actions) {
    if (applies(action, now) && !outcome_here(action)) return false;
  }
  return true;
}

Urgency NaiveWalk::urgency() const {
  Urgency worst_of_all = step().urgency;
  for (const OpenNow& call : open_calls()) {
    const bool calm = !call.urgent || is(Variant::clinic_calls_are_calm);
    const Urgency calls_for = call.contact == Contact::emergency        ? Urgency::emergency
                              : call.contact == Contact::clinic && calm ? Urgency::clinic
                                                                        : Urgency::clinic_now;
    const bool worse = calls_for > worst_of_all;
    if (worse != (is(Variant::calmest_urgency_wins))) worst_of_all = calls_for;
  }
  return worst_of_all;
}

}  // namespace rushlight::naive
