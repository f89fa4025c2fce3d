#include <algorithm>

#include "naive_walk.hpp"

namespace rushlight::naive {

void NaiveWalk::happens(const Event& event) {
  const auto* corrected = std::get_if<Corrected>(&event.what);
  if (corrected == nullptr || is(Variant::corrections_count_from_now)) {
    script_.push_back(event);
    take(event);
    return;
  }
  // What was believed was never so: the whole night is told again.
  script_ = believed(std::move(script_), corrected->answers, event.at);
  if (is(Variant::corrections_take_back_deeds)) {
    script_.erase(
        std::remove_if(script_.begin(), script_.end(), [](const Event& each) { return each.what.index() == 4; }),
        script_.end());
  }
  const std::vector<Event> again = std::move(script_);
  script_.clear();
  begin();
  for (const Event& each : again) {
    script_.push_back(each);
    take(each);
  }
}

/// Each corrected answer stands in the place where its fact was last said. One that was never said is said now.
std::vector<Event> NaiveWalk::believed(std::vector<Event> script, const Answers& corrected, Moment at) {
  Answers never_said;
  for (const auto& [fact, value] : corrected) {
    bool found = false;
    for (std::size_t i = script.size(); i-- > 0 && !found;) {
      Answers* answers = nullptr;
      if (auto* answered = std::get_if<Answered>(&script[i].what)) answers = &answered->answers;
      if (auto* worse = std::get_if<GotWorse>(&script[i].what)) answers = &worse->answers;
      if (answers == nullptr) continue;
      for (auto& [said, was] : *answers) {
        if (!(said == fact)) continue;
        was = value;
        found = true;
      }
    }
    if (!found) never_said.emplace_back(fact, value);
  }
  script.push_back(Event{at, Answered{never_said}});
  return script;
}

void NaiveWalk::take(const Event& event) {
  const Instant now = clock_shows(event.at);
  offset_ = event.at.offset;  // hours of the clock are those of the latest place
  live_until(now);
  ++told_;
  if (std::holds_alternative<AllDone>(event.what)) script_.back().what = everything_stated(now);
  const Event told = script_.back();
  stirred_ = true;
  if (const auto* worse = std::get_if<GotWorse>(&told.what)) {
    if (ended() && !is(Variant::end_is_the_end)) {
      note(now, BegunAgain{});
      note(now, OpeningAsked{});
      enter(p().start, now);
    }
    if (worse->answers.empty() && !ended() && !is(Variant::unnamed_worse_asks_nothing)) note(now, OpeningAsked{});
    say(worse->answers, now);
  }
  if (const auto* answered = std::get_if<Answered>(&told.what)) say(answered->answers, now);
  if (const auto* corrected = std::get_if<Corrected>(&told.what)) say(corrected->answers, now);  // in one variant only
  if (const auto* done = std::get_if<Done>(&told.what)) {
    for (const Deed& each : done->deeds) deed(each, now, event.at);
  }
  if (const auto* call = std::get_if<Called>(&told.what)) called(*call, now);
  if (const auto* changed = std::get_if<LanguageChanged>(&told.what)) language_ = changed->language;
  if (std::holds_alternative<TakenOver>(told.what) && !is(Variant::takeover_asks_nothing)) note(now, OpeningAsked{});
  if (std::holds_alternative<Abandoned>(told.what)) note(now, GaveUp{});
  beat_at(now);
}

void NaiveWalk::enter(StepId to, Instant now) {
  note(now, Entered{to});
  for (const ActionId id : step().actions) {
    const Action& action = p()[id];
    if (!action.call || !applies(id, now)) continue;
    if (action.call->contact == Contact::emergency && on_the_line() && !is(Variant::every_step_calls_anew)) {
      note(now, Heard{id, Outcome::reached});
    } else {
      note(now, Rang{action.call->contact, time(action.call->answer_within, now)});
    }
  }
  after_applied_ = step().wait && step().wait->after && applies(*step().wait->after, now);
}

/// After the end only "worse" is heard as an answer, and it begins the walk again.
void NaiveWalk::say(const Answers& answers, Instant now) {
  if (ended()) return;
  for (const auto& [fact, value] : answers) note(now, Said{fact, value, now, true});
}

/// What was stated then stays done, whatever is corrected later. How a call went is never taken as stated.
Done NaiveWalk::everything_stated(Instant now) const {
  Done done;
  if (ended()) return done;
  for (const ActionId action : step().actions) {
    const bool drink = p()[action].kind == ActionKind::fluid && step().wait && !is(Variant::all_done_empties_the_cup);
    if (drink || p()[action].call || !applies(action, now) || outcome_here(action)) continue;
    done.deeds.push_back(Deed{action, Outcome::given, std::nullopt, std::nullopt});
  }
  return done;
}

void NaiveWalk::deed(const Deed& deed, Instant now, const Moment& at) {
  Instant when = now;
  if (deed.when && deed.when->utc < at.utc && !is(Variant::told_late_counts_from_telling))
    when -= at.utc - deed.when->utc;
  const Action& action = p()[deed.action];
  Did did{deed.action, deed.outcome, when, false};
  note(now, did);
  did.here = !ended() && is_shown(deed.action, now);  // counting it may be what makes it one of the step's actions
  diary_.back().what = did;
  if (action.records && counts(did)) note(now, Said{action.records->fact, Chosen{action.records->option}, when, false});
  if (const auto last = p().fact_named("last-rapid-insulin"); last && action.kind == ActionKind::insulin && counts(did))
    note(now, Said{*last, Ago{Duration{0}}, when, false});
  const std::optional<OutcomeRule>& on = action.on[static_cast<std::size_t>(deed.outcome)];
  if (did.here && on && on->go) enter(*on->go, now);
}

/// The clinic and its on-call line are one side, the emergency services the other: who reaches one of a side has
/// reached it.
void NaiveWalk::called(const Called& called, Instant now) {
  const bool emergency = called.contact == Contact::emergency;
  if (called.outcome == Outcome::told) note(now, ClinicSaid{called.text});
  if (emergency) note(now, OnTheLine{called.outcome != Outcome::no_answer});
  if (called.outcome == Outcome::no_answer) {
    std::optional<Contact> unanswered;
    for (const OpenNow& call : open_calls()) {
      if ((call.contact == Contact::emergency) != emergency) continue;
      if (!unanswered || call.contact == called.contact) unanswered = call.contact;
    }
    if (unanswered) note(now, MovedOn{*unanswered});
  } else {
    note(now, AnsweredCalls{emergency});
  }
  if (ended()) return;
  for (const ActionId id : std::vector<ActionId>(step().actions)) {
    const Action& action = p()[id];
    if (!action.call || (action.call->contact == Contact::emergency) != emergency || !is_shown(id, now)) continue;
    note(now, Heard{id, called.outcome});
    const std::optional<OutcomeRule>& on = action.on[static_cast<std::size_t>(called.outcome)];
    if (on && on->go) {
      enter(*on->go, now);
      return;
    }
  }
}

}  // namespace rushlight::naive
