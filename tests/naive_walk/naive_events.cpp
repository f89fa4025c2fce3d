#include <algorithm>

#include "naive_walk.hpp"

namespace rushlight::naive {

void NaiveWalk::happens(const Event& event) {
  const auto* corrected_answers = std::get_if<Corrected>(&event.what);
  if (corrected_answers == nullptr || is(Variant::corrections_count_from_now)) {
    script_.push_back(Told{event});
    take(script_.back());
    return;
  }
  // What was believed was never so: the whole night is told again.
  std::vector<Told> again = is(Variant::corrections_are_walked_in_the_past)
                                ? believed(script_, corrected_answers->answers, event.at)
                                : corrected(corrected_answers->answers, event.at);
  if (is(Variant::corrections_take_back_deeds)) {
    again.erase(
        std::remove_if(again.begin(), again.end(), [](const Told& each) { return each.event.what.index() == 4; }),
        again.end());
  }
  script_.clear();
  begin();
  for (const Told& each : again) {
    script_.push_back(each);
    take(each);
  }
}

/// Both nights are walked, as it was and as it is believed now, until they go apart.
std::vector<NaiveWalk::Told> NaiveWalk::corrected(const Answers& answers, Moment at) const {
  std::vector<Told> now_believed = believed(script_, answers, at);
  if (const std::optional<ActionKind> wrongly = given_wrongly(now_believed);
      wrongly && !is(Variant::corrections_take_back_deeds)) {
    std::vector<Told> as_walked = script_;
    Answers told_now = answers;
    const auto wrong = p().fact_named("wrong-insulin");
    if (wrong && *wrongly == ActionKind::insulin) {
      for (std::size_t i = 0; i < p()[*wrong].options.size(); ++i) {
        if (p()[*wrong].options[i].name == "yes")
          told_now.emplace_back(*wrong, Chosen{static_cast<std::uint16_t>(i)});
      }
    }
    as_walked.push_back(Told{Event{at, Answered{told_now}}});
    return as_walked;
  }
  NaiveWalk was(*protocol_, *child_, begins_, beat_, variant_), is_now = was;
  const auto tells = [](NaiveWalk& walk, const Told& told, Instant then) {
    walk.script_.push_back(told);
    walk.tell(told, then);
  };
  std::optional<std::size_t> apart;
  bool by_time = false;
  for (std::size_t i = 0; i < script_.size(); ++i) {
    const Instant then = was.pass_time(script_[i]);
    if (!apart) {
      const Instant now = is_now.pass_time(now_believed[i]);
      if (!was.stands_as(is_now, then)) apart = i, by_time = true;
      tells(is_now, now_believed[i], now);
    }
    tells(was, script_[i], then);
    if (!apart && !was.stands_as(is_now, then)) apart = i;
  }
  const Instant moment = was.pass_time(Told{Event{at, Ticked{}}});
  if (!apart) {
    is_now.pass_time(now_believed.back());
    if (was.stands_as(is_now, moment)) return now_believed;
    apart = script_.size();
    by_time = true;
  }
  for (std::size_t i = *apart; i < now_believed.size(); ++i) {
    const bool together = i == *apart && !by_time;  // up to then nobody can tell the nights apart
    now_believed[i] = Told{now_believed[i].event, together ? now_believed[i].time : Told::Time::stands_still, moment};
  }
  now_believed.back().time = Told::Time::catches_up;
  const std::optional<Wait>& wait = was.step().wait;
  const std::optional<Instant> ends = was.wait_ends(moment);
  if (wait && ends && !was.ended() && was.waiting(moment) && !is(Variant::corrections_put_checks_off))
    now_believed.back().promised = std::pair{wait->timer, *ends};
  return now_believed;
}

/// Insulin, or glucagon in an emergency, that went in where the believed night does not give it.
std::optional<ActionKind> NaiveWalk::given_wrongly(const std::vector<Told>& now_believed) const {
  NaiveWalk was(*protocol_, *child_, begins_, beat_, variant_), is_now = was;
  std::optional<ActionKind> wrongly;
  const auto medicines = [](const NaiveWalk& walk) {
    std::vector<ActionId> given;
    for (const Line& line : walk.diary_) {
      const auto* did = std::get_if<Did>(&line.what);
      const bool in = did != nullptr && (did->outcome == Outcome::given || did->outcome == Outcome::part ||
                                         did->outcome == Outcome::wrong);
      if (in) given.push_back(did->action);
    }
    return given;
  };
  for (std::size_t i = 0; i < script_.size(); ++i) {
    const Instant then = was.pass_time(script_[i]), now = is_now.pass_time(now_believed[i]);
    const bool emergency = was.step().urgency == Urgency::emergency;
    const bool together = &was.step() == &is_now.step();
    const std::size_t before = medicines(was).size(), before_now = medicines(is_now).size();
    was.script_.push_back(script_[i]);
    was.tell(script_[i], then);
    is_now.script_.push_back(now_believed[i]);
    is_now.tell(now_believed[i], now);
    const std::vector<ActionId> in = medicines(was), in_now = medicines(is_now);
    for (std::size_t place = before; place < in.size(); ++place) {
      const ActionKind kind = p()[in[place]].kind;
      if (kind != ActionKind::insulin && !(kind == ActionKind::glucagon && emergency)) continue;
      bool also = false;
      for (std::size_t other = before_now; other < in_now.size(); ++other) also = also || in_now[other] == in[place];
      if (!(together && also) && wrongly != ActionKind::insulin) wrongly = kind;
    }
  }
  return wrongly;
}

/// At the same step since the same moment, with the same before it and the same calls: what is known may differ.
bool NaiveWalk::stands_as(const NaiveWalk& other, Instant now) const {
  const Line& here = diary_[entry()];
  const Line& there = other.diary_[other.entry()];
  const auto calls_of = [](const NaiveWalk& walk) {
    std::vector<std::pair<Contact, Instant>> calls;
    for (const OpenNow& call : walk.open_calls()) calls.emplace_back(call.contact, call.since + call.answer_within);
    return calls;
  };
  return &step() == &other.step() && here.at == there.at && here.told == there.told && ended() == other.ended() &&
         wait_ends(now) == other.wait_ends(now) && opening_left() == other.opening_left() &&
         calls_of(*this) == calls_of(other);
}

/// Each corrected answer stands in the place where its fact was last said. One that was never said is said now.
std::vector<NaiveWalk::Told> NaiveWalk::believed(std::vector<Told> script, const Answers& corrected, Moment at) {
  Answers never_said;
  for (const auto& [fact, value] : corrected) {
    bool found = false;
    for (std::size_t i = script.size(); i-- > 0 && !found;) {
      Answers* answers = nullptr;
      if (auto* answered = std::get_if<Answered>(&script[i].event.what)) answers = &answered->answers;
      if (auto* worse = std::get_if<GotWorse>(&script[i].event.what)) answers = &worse->answers;
      if (answers == nullptr) continue;
      for (auto& [said, was] : *answers) {
        if (!(said == fact)) continue;
        was = value;
        found = true;
      }
    }
    if (!found) never_said.emplace_back(fact, value);
  }
  script.push_back(Told{Event{at, Answered{never_said}}});
  return script;
}

void NaiveWalk::take(const Told& told) {
  const Instant then = pass_time(told);
  tell(told, then);
}

Instant NaiveWalk::pass_time(const Told& told) {
  const Instant then = clock_shows(told.event.at);
  offset_ = told.event.at.offset;  // hours of the clock are those of the latest place
  if (told.time == Told::Time::passes) live_until(then);
  if (told.time == Told::Time::catches_up) catch_up(then);
  if (told.again && told.time != Told::Time::catches_up) still_at_ = last_beat_;
  return then;
}

void NaiveWalk::tell(const Told& told, Instant now) {
  shown_from_ = told.again;
  ++told_;
  if (std::holds_alternative<AllDone>(told.event.what)) script_.back().event.what = everything_stated(now);
  const Event event = script_.back().event;
  stirred_ = true;
  const auto* answered = std::get_if<Answered>(&event.what);
  const bool again = std::holds_alternative<GotWorse>(event.what) || (answered && is_looked_out_for(answered->answers, now));
  if (again && ended() && !is(Variant::end_is_the_end)) {
    note(now, BegunAgain{});
    note(now, OpeningAsked{});
    enter(p().start, now);
  }
  if (const auto* worse = std::get_if<GotWorse>(&event.what)) {
    if (worse->answers.empty() && !ended() && !is(Variant::unnamed_worse_asks_nothing)) note(now, OpeningAsked{});
    say(worse->answers, now);
  }
  if (answered != nullptr) say(answered->answers, now);
  // In one variant only.
  if (const auto* corrected = std::get_if<Corrected>(&event.what)) say(corrected->answers, now);
  if (const auto* done = std::get_if<Done>(&event.what)) {
    for (const Deed& each : done->deeds) deed(each, now, event.at);
  }
  if (const auto* call = std::get_if<Called>(&event.what)) called(*call, now);
  if (const auto* changed = std::get_if<LanguageChanged>(&event.what)) language_ = changed->language;
  if (std::holds_alternative<TakenOver>(event.what) && !is(Variant::takeover_asks_nothing)) note(now, OpeningAsked{});
  if (std::holds_alternative<Abandoned>(event.what)) note(now, GaveUp{});
  beat_at(now);
  if (told.promised && step().wait && step().wait->timer == told.promised->first && wait_ends(now) && waiting(now))
    note(now, Promised{told.promised->second});
  shown_from_.reset();
}

void NaiveWalk::enter(StepId to, Instant now) {
  note(now, Entered{to});
  for (const ActionId id : step().actions) {
    const Action& action = p()[id];
    if (!action.call || !applies(id, now)) continue;
    const bool urgent = step().urgency >= Urgency::clinic_now;
    if (action.call->contact == Contact::emergency && on_the_line() && !is(Variant::every_step_calls_anew)) {
      note(now, Heard{id, Outcome::reached});
    } else {
      note(now, Rang{action.call->contact, time(action.call->answer_within, now), urgent});
    }
  }
  after_applied_ = step().wait && step().wait->after && applies(*step().wait->after, now);
}

/// Whether a watch that reads one of these answers would fire if it were looked at with them.
bool NaiveWalk::is_looked_out_for(const Answers& answers, Instant now) const {
  NaiveWalk then = *this;
  for (const auto& [fact, value] : answers) then.note(now, Said{fact, value, now, true, now});
  for (const Watch& watch : p().watch) {
    bool reads = false;
    for (const FactId fact : read_by(watch)) {
      for (const auto& answer : answers) reads = reads || answer.first == fact;
    }
    if (reads && then.holds(watch.when, now, false)) return true;
  }
  return false;
}

/// After the end only "worse" is heard as an answer, and what a watch looks out for: it begins the walk again.
void NaiveWalk::say(const Answers& answers, Instant now) {
  if (ended()) return;
  for (const auto& [fact, value] : answers)
    note(now, Said{fact, as_it_stands(fact, value, now), now, true, shown_from_.value_or(now)});
}

/// An older dose of insulin that is told later does not take the place of one of this night.
Value NaiveWalk::as_it_stands(FactId fact, const Value& value, Instant now) const {
  const auto* ago = std::get_if<Ago>(&value);
  const bool about_insulin = p().facts[fact.index].name == "last-rapid-insulin";
  if (!about_insulin || (ago == nullptr && !std::holds_alternative<NotLately>(value))) return value;
  Value last = value;
  for (const auto& entry : diary_) {
    const auto* did = std::get_if<Did>(&entry.what);
    if (did == nullptr || p()[did->action].kind != ActionKind::insulin || !counts(*did)) continue;
    const auto* known = std::get_if<Ago>(&last);
    if (known == nullptr || now - did->when < known->time) last = Ago{now - did->when};
  }
  return last;
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
  const Instant counts_from = shown_from_.value_or(when);  // told again it is news, however long ago it was
  if (action.records && counts(did))
    note(now, Said{action.records->fact, Chosen{action.records->option}, when, false, counts_from});
  if (const auto last = p().fact_named("last-rapid-insulin"); last && action.kind == ActionKind::insulin && counts(did))
    note(now, Said{*last, Ago{Duration{0}}, when, false, counts_from});
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
    std::optional<OpenNow> unanswered;
    for (const OpenNow& call : open_calls()) {
      if ((call.contact == Contact::emergency) != emergency) continue;
      if (!unanswered || call.contact == called.contact) unanswered = call;
    }
    // At its own time, and not before the call was asked for.
    if (unanswered)
      diary_.push_back(Line{std::max(now, unanswered->since), MovedOn{unanswered->contact}, told_, due(now), now});
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
