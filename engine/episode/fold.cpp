#include "episode/fold.hpp"

#include <algorithm>

#include "episode/believed.hpp"
#include "episode/dose_result.hpp"
#include "episode/insulin.hpp"
#include "episode/misdosed.hpp"
#include "episode/settle.hpp"
#include "episode/words.hpp"

namespace rushlight {
namespace {

/// The instant of an event as the episode counts time; a clock that went back counts no time at all.
Instant counted_time(EpisodeClock& clock, const Moment& at, bool& went_back) {
  if (at.utc < clock.last_wall) {
    clock.lost += clock.last_wall - at.utc;
    went_back = true;
  }
  clock.last_wall = at.utc;
  clock.offset = at.offset;
  return at.utc + clock.lost;
}

std::vector<FactId> opening_facts(const Protocol& protocol) {
  std::vector<FactId> facts;
  for (const Ask& ask : protocol.opening) facts.push_back(ask.fact);
  return facts;
}

/// One event applied to an episode whose deadlines have passed already.
class Applying {
 public:
  /// `again`: the moment of a correction that tells it once more.
  Applying(const Protocol& protocol, const Child& child, Episode& episode, Instant now, std::optional<Instant> again)
      : protocol_(protocol),
        child_(child),
        settling_(protocol, child, episode, again.value_or(now)),
        episode_(episode),
        now_(now),
        again_(again) {}

  void operator()(const Ticked&) {}
  void operator()(const Answered& answered) {
    if (episode_.ended && !calls_back(answered.answers)) return keep_readings(answered.answers);
    if (episode_.ended) begin_again();
    if (knows_what_the_clinic_says(answered.answers)) apply(Called{Contact::on_call, Outcome::reached, ""});
    // Nobody has to call a crew that is there, and whoever was told to drive has reached them.
    const bool no_ambulance = says(answered.answers, "help-here", "drive");
    if (no_ambulance || says(answered.answers, "help-here", "yes")) apply(Called{Contact::emergency, Outcome::reached, ""});
    if (no_ambulance) episode_.on_the_line = false;  // they sent the family on its way: what comes next is a new call
    learn(answered.answers);
  }
  void operator()(const GotWorse& worse) {
    if (episode_.ended) begin_again();
    if (!worse.answers.empty()) return learn(worse.answers);
    // Nobody can name it: the worry is called about, and the danger signs are looked for.
    if (const Answers worry = unnamed_worry(protocol_); !worry.empty()) {
      learn(worry);
      settling_.follow_rules(again_.value_or(now_));
    }
    ask_opening();
  }
  void operator()(const Corrected&) {}  // as_corrected has put it where it belongs
  void operator()(const Done& done) {
    for (const Deed& deed : done.deeds) apply(deed);
    if (!done.deeds.empty()) settling_.start_wait_without_dose(now_);
  }
  void operator()(const AllDone&) {}  // expanded before
  void operator()(const Called& called) { apply(called); }
  void operator()(const LanguageChanged& changed) { episode_.language = changed.language; }
  void operator()(const TakenOver& taken) {
    episode_.carer = taken.by;
    if (!episode_.ended) ask_opening();
  }
  void operator()(const Remembered& told) { episode_.past = told.past; }
  void operator()(const Abandoned&) { episode_.ended = episode_.abandoned = true; }

 private:
  /// Whether a watch would look out for one of these answers: then the night is not over.
  bool calls_back(const Answers& answers) const {
    Episode then = episode_;
    for (const auto& [fact, value] : answers) {
      if (fact.index >= kChildFacts) then.facts[fact.index] = Known{value, now_, then.events, false};
    }
    const Scene scene = scene_at(protocol_, child_, then, now_);
    const auto reads_one = [&](const Watch& watch) {
      return std::any_of(watch.when.begin(), watch.when.end(), [&](const Condition& condition) {
        const std::optional<FactId> read = question_in(protocol_, condition);
        return read &&
               std::any_of(answers.begin(), answers.end(), [&](const auto& each) { return each.first == *read; });
      });
    };
    return std::any_of(protocol_.watch.begin(), protocol_.watch.end(), [&](const Watch& watch) {
      return reads_one(watch) && all_hold(scene, watch.when, Unanswered::holds_nothing);
    });
  }

  bool says(const Answers& answers, std::string_view name, std::string_view option) const {
    return std::any_of(answers.begin(), answers.end(), [&](const auto& answer) {
      const Fact& fact = protocol_[answer.first];
      const auto* chosen = std::get_if<Chosen>(&answer.second);
      return fact.name == name && chosen != nullptr && fact.options[chosen->option].name == option;
    });
  }

  // Whoever knows what the clinic says has reached it.
  bool knows_what_the_clinic_says(const Answers& answers) const {
    return says(answers, "clinic-said", "come") || says(answers, "clinic-said", "stay");
  }

  // What leads nowhere any more is still a reading of this night, for the telephone and the record.
  void keep_readings(const Answers& answers) {
    for (const auto& [fact, value] : answers) {
      if (fact.index < kChildFacts) continue;
      const FactKind kind = protocol_[fact].kind;
      if (kind == FactKind::glucose || kind == FactKind::ketones || kind == FactKind::ordered_choice)
        episode_.readings.push_back({fact, value, now_});
    }
  }

  void learn(const Answers& answers) {
    keep_readings(answers);
    for (const auto& [fact, value] : answers) {
      if (fact.index < kChildFacts) continue;
      know(fact, not_before_this_nights(fact, value), now_);
      auto& opening = episode_.opening;
      opening.erase(std::remove(opening.begin(), opening.end(), fact), opening.end());
    }
  }

  /// Insulin that went in this night is the last one, though an older dose is told.
  Value not_before_this_nights(FactId fact, const Value& value) const {
    const auto* ago = std::get_if<Ago>(&value);
    if (fact != protocol_.fact_named("last-rapid-insulin") ||
        (ago == nullptr && !std::holds_alternative<NotLately>(value)))
      return value;
    const std::optional<Instant> given = insulin_of_this_night(protocol_, episode_);
    const bool is_older = given && (ago == nullptr || now_ - *given < ago->time);
    return is_older ? Value{Ago{now_ - *given}} : value;
  }

  void know(FactId fact, const Value& value, Instant since) {
    Known known{value, since, episode_.events};
    known.told_again = again_;
    episode_.facts[fact.index] = known;
  }

  void ask_opening() {
    episode_.opening = opening_facts(protocol_);
    episode_.opening_since = again_.value_or(now_);
  }

  void begin_again() {
    episode_.ended = episode_.abandoned = false;
    episode_.visit.reset();
    ask_opening();
    for (OpenCall& call : episode_.calls)
      call.opened = again_.value_or(now_);  // nobody was waiting for an answer after the end
    settling_.enter(protocol_.start, Cause{}, now_);
  }

  void apply(const Deed& deed) {
    const Action& action = protocol_[deed.action];
    if (is_call(action.kind)) {
      const bool made =
          deed.outcome == Outcome::given || deed.outcome == Outcome::reached || deed.outcome == Outcome::told;
      const Outcome outcome = made ? Outcome::reached : Outcome::no_answer;
      apply(Called{action.call->contact, outcome, ""});
      return;
    }
    Instant when = now_;
    if (deed.when) when = std::min(now_, deed.when->utc + episode_.clock.lost);
    const Given given = as_it_counts(deed, when);
    const bool nothing = is_nothing(deed.amount);
    const bool taken = (given.outcome == Outcome::given || given.outcome == Outcome::part) && !nothing;
    const bool wrong = given.outcome == Outcome::wrong;
    if (!nothing) episode_.given.push_back(given);
    if (taken || wrong) {
      if (action.counts) ++episode_.counted[action.counts->index];
      if (action.records) know(action.records->fact, Chosen{action.records->option}, when);
    }
    if (action.kind == ActionKind::insulin && (taken || wrong)) insulin_went_in(when, wrong);
    if (taken && action.starts) {
      const Scene here = settling_.scene(now_);
      const auto* lasts = std::get_if<Duration>(&value_in(protocol_[action.starts->lasts], here.context));
      if (lasts != nullptr) episode_.timers[action.starts->timer.index] = when + *lasts;
    }
    if (taken && action.stops) episode_.timers[action.stops->index].reset();
    if (!belongs_here(deed.action)) return;
    set_deed(given);
    const std::optional<OutcomeRule>& rule = action.on[static_cast<std::size_t>(given.outcome)];
    if (rule && rule->go) {
      settling_.enter(*rule->go, Cause{Cause::Kind::outcome, episode_.step, deed.action.index, given.outcome}, now_);
    } else if (taken || nothing || rule) {
      settling_.start_wait_after(deed.action, when, now_);
    }
  }

  Given as_it_counts(const Deed& deed, Instant when) {
    const Scene before = settling_.scene(now_);
    Given given{deed.action, counted_outcome(before, deed, when), deed.amount, when};
    if (const auto& dose = protocol_[deed.action].dose)
      given.stated = dose_for(before, *dose, episode_.language).amount;
    given.told_by = episode_.events;
    return given;
  }

  // A wrong dose is told as one: it is watched for, and no other follows it.
  void insulin_went_in(Instant when, bool wrong) {
    if (const auto last = protocol_.fact_named("last-rapid-insulin")) know(*last, Ago{Duration{0}}, when);
    const auto wrong_insulin = protocol_.fact_named("wrong-insulin");
    if (!wrong || !wrong_insulin) return;
    const std::vector<Option>& options = protocol_[*wrong_insulin].options;
    for (std::size_t place = 0; place < options.size(); ++place) {
      if (options[place].name == "yes") know(*wrong_insulin, Chosen{static_cast<std::uint16_t>(place)}, when);
    }
  }

  void apply(const Called& called) {
    if (called.outcome == Outcome::told) episode_.told = called.text;
    if (called.contact == Contact::emergency) episode_.on_the_line = called.outcome != Outcome::no_answer;
    const bool clinic_spoke = is_clinic_side(called.contact) && called.outcome != Outcome::no_answer;
    if (clinic_spoke && !settling_.doses_to_call_for(now_).empty()) episode_.insulin_said = true;
    const auto answers_to = [&](Contact contact) { return is_clinic_side(contact) == is_clinic_side(called.contact); };
    auto& calls = episode_.calls;
    if (called.outcome == Outcome::no_answer) {
      // The exact contact first: an on-call line that answers nobody is not the clinic's day line.
      auto open =
          std::find_if(calls.begin(), calls.end(), [&](const OpenCall& c) { return c.contact == called.contact; });
      if (open == calls.end()) {
        open = std::find_if(calls.begin(), calls.end(), [&](const OpenCall& c) { return answers_to(c.contact); });
      }
      if (open != calls.end()) settling_.escalate(static_cast<std::size_t>(open - calls.begin()), now_, false);
    } else {
      // Whoever reaches the clinic after all needs no emergency call that only stood in for it.
      const auto is_answered = [&](const OpenCall& c) {
        return answers_to(c.contact) || (is_clinic_side(called.contact) && !c.by_step);
      };
      calls.erase(std::remove_if(calls.begin(), calls.end(), is_answered), calls.end());
    }
    for (const ActionId id : protocol_[episode_.step].actions) {
      const Action& action = protocol_[id];
      if (!is_call(action.kind) || !answers_to(action.call->contact) || !belongs_here(id)) continue;
      if (called.outcome != Outcome::no_answer) set_deed(Given{id, called.outcome, std::nullopt, now_});
      const std::optional<OutcomeRule>& rule = action.on[static_cast<std::size_t>(called.outcome)];
      if (rule && rule->go) {
        settling_.enter(*rule->go, Cause{Cause::Kind::outcome, episode_.step, id.index, called.outcome}, now_);
        return;
      }
      settling_.start_wait_after(id, now_, now_);
    }
  }

  bool belongs_here(ActionId id) const {
    const Action& action = protocol_[id];
    return !episode_.ended && action.step == episode_.step && applies(settling_.scene(now_), action);
  }

  void set_deed(const Given& given) {
    auto& deeds = episode_.deeds;
    deeds.erase(
        std::remove_if(deeds.begin(), deeds.end(), [&](const Given& deed) { return deed.action == given.action; }),
        deeds.end());
    deeds.push_back(given);
  }

  const Protocol& protocol_;
  const Child& child_;
  Settling settling_;
  Episode& episode_;
  Instant now_;
  std::optional<Instant> again_;
};

/// Deeds with the advised amount where nobody said another; "all done" action by action, without calls: they are told.
Event written_out(const Protocol& protocol, const Child& child, const Episode& episode, const Event& event,
                  Instant now) {
  Done done;
  const Scene here = scene_at(protocol, child, episode, now);
  const Step& step = protocol[episode.step];
  const bool all_done = std::holds_alternative<AllDone>(event.what);
  if (const auto* given = std::get_if<Done>(&event.what)) {
    done = *given;
  } else if (all_done && !episode.ended) {
    for (const ActionId id : step.actions) {
      const Action& action = protocol[id];
      // A drink of a step that waits is told as it goes down, not all of it before the wait.
      const bool goes_down_later = action.kind == ActionKind::fluid && step.wait;
      if (is_over(episode, id) || is_call(action.kind) || goes_down_later || !applies(here, action)) continue;
      if (step.wait && action.kind == ActionKind::insulin && is_for_the_clinic(here, action)) continue;
      done.deeds.push_back(Deed{id, Outcome::given, std::nullopt, std::nullopt});
    }
  } else if (!all_done) {
    return event;
  }
  for (Deed& deed : done.deeds) {
    const std::optional<DoseId>& dose = protocol[deed.action].dose;
    if (!dose || deed.amount || deed.outcome != Outcome::given) continue;
    deed.amount = dose_for(here, *dose, episode.language).amount;
    // "All done" where no insulin is stated yet is no insulin; what the clinic says by phone is told by itself.
    const bool insulin = protocol[deed.action].kind == ActionKind::insulin;
    if (all_done && insulin && !deed.amount) deed.amount = Quantity{Decimal{}, protocol[*dose].unit};
  }
  return Event{event.at, std::move(done)};
}

/// A dose that becomes the clinic's to say while its step is shown: its call opens now.
void call_for_doses(const Protocol& protocol, Settling& settling, const std::vector<ActionId>& before, Instant now) {
  for (const ActionId id : settling.doses_to_call_for(now)) {
    if (std::find(before.begin(), before.end(), id) == before.end()) settling.open_call_of(protocol[id], now);
  }
}

/// A wait that began with a correction ends no later than the one on its timer that was shown before.
void keep_promise(const Protocol& protocol, Episode& episode, const std::optional<Promise>& promise) {
  const std::optional<Wait>& wait = protocol[episode.step].wait;
  if (!promise || episode.ended || !wait || wait->timer != promise->timer || episode.wait_passed) return;
  if (episode.wait_ends) episode.wait_ends = std::min(*episode.wait_ends, promise->ends);
}

}  // namespace

Episode begun(const Protocol& protocol, const Child& child, Moment at) {
  Episode episode{};
  episode.began = at;
  episode.clock = EpisodeClock{at.utc, Duration{0}, at.offset};
  episode.language = child.language;
  episode.facts.resize(protocol.facts.size());
  episode.counted.resize(protocol.counters.size());
  episode.timers.resize(protocol.timers.size());
  episode.marks.resize(protocol.marks.size());
  episode.opening = opening_facts(protocol);
  episode.opening_since = at.utc;
  Settling settling(protocol, child, episode);
  settling.enter(protocol.start, Cause{}, at.utc);
  settling.follow_rules(at.utc);
  return episode;
}

Instant with_time_passed(const Protocol& protocol, const Child& child, Episode& episode, const Telling& telling) {
  const Instant when = counted_time(episode.clock, telling.event.at, episode.clock_went_back);
  if (telling.time == Telling::Time::stands_still) return when;
  const bool catches_up = telling.time == Telling::Time::catches_up;
  Settling(protocol, child, episode, catches_up ? *telling.caught_up : Instant::min()).pass_deadlines(when);
  return when;
}

Event told_at(const Protocol& protocol, const Child& child, Episode& episode, const Telling& telling, Instant now) {
  Settling settling(protocol, child, episode, telling.again.value_or(now));
  ++episode.events;
  Event written = written_out(protocol, child, episode, telling.event, now);
  const std::vector<ActionId> to_call_for = settling.doses_to_call_for(now);
  const int entered_by = episode.entered_by;
  std::visit(Applying(protocol, child, episode, now, telling.again), written.what);
  settling.follow_rules(now);
  const Instant shown = telling.again.value_or(now);
  if (episode.entered_by == entered_by && !episode.ended) call_for_doses(protocol, settling, to_call_for, shown);
  // A deed told late may have started a wait that is over already. What a correction tells again waits for its end.
  if (!telling.again || telling.time == Telling::Time::catches_up) settling.pass_deadlines(now);
  keep_promise(protocol, episode, telling.promise);
  return written;
}

Episode folded(const Protocol& protocol, const Child& child, Episode episode, const Event& event) {
  if (!std::holds_alternative<Corrected>(event.what)) {
    const Telling telling{event};
    const Instant when = with_time_passed(protocol, child, episode, telling);
    episode.history.push_back(told_at(protocol, child, episode, telling, when));
    return episode;
  }
  std::vector<Event> history = std::move(episode.history);
  history.push_back(event);
  Episode believed = begun(protocol, child, episode.began);
  for (const Telling& telling : as_believed(protocol, child, episode.began, history)) {
    const Instant when = with_time_passed(protocol, child, believed, telling);
    told_at(protocol, child, believed, telling, when);
  }
  believed.history = std::move(history);
  return believed;
}

Episode settled_at(const Protocol& protocol, const Child& child, Episode episode, Moment now) {
  const Instant instant = counted_time(episode.clock, now, episode.clock_went_back);
  Settling settling(protocol, child, episode);
  settling.pass_deadlines(instant);
  return episode;
}

}  // namespace rushlight
