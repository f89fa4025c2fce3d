#include "verify/ways.hpp"

#include <algorithm>

#include "episode/scene.hpp"

namespace rushlight {
namespace {

bool has(const std::vector<WatchId>& watches, std::size_t index) {
  return std::any_of(watches.begin(), watches.end(), [&](WatchId each) { return each.index == index; });
}

}  // namespace

Ways::Ways(const SideBySide& sides, const Space& space, Diagrams& diagrams)
    : sides_(sides), protocol_(sides.both), space_(space), diagrams_(diagrams) {
  for (const Watch& watch : protocol_.watch) {
    watch_holds_.push_back(space_.where(diagrams_, watch.when));
    watch_reads_.push_back(questions_of(watch.when));
    if (watch.told) awaited_ |= watch_reads_.back();
  }
  for (const Step& step : protocol_.steps) {
    asked_.push_back({asked_in(step.asks), {}});
    for (const Ask& ask : step.asks) {
      const auto place = space_.place_of(ask.fact);
      if (place && !ask.fresh) asked_.back().anew[*place] = true;
      if (!place) asked_.back().any_unread = true;
    }
    rule_holds_.emplace_back();
    early_reads_.emplace_back();
    for (const Rule& rule : step.rules) {
      rule_holds_.back().push_back(holding_of(step, rule));
      early_reads_.back().push_back(step.wait ? early_reads_of(rule) : std::nullopt);
      if (early_reads_.back().back()) awaited_early_ |= *early_reads_.back().back();
    }
  }
  for (std::size_t c = 0; c < protocol_.counters.size(); ++c)
    counting_.push_back(counting_of(CounterId{static_cast<std::uint16_t>(c)}));
  for (std::size_t v = 0; v < space_.variables().size(); ++v) told_[v] = is_told(v);
}

// What is told or counted may be anything at the next occasion; what the child is stays.
bool Ways::is_told(std::size_t v) const {
  const Subject& subject = space_.variables()[v].subject;
  return subject.kind != Subject::Kind::done && !stays_through_the_night(protocol_, subject);
}

Diagrams::Set Ways::freed(Diagrams::Set set, const Told& facts) {
  std::vector<bool> free(space_.variables().size() + 1, false);
  for (std::size_t v = 0; v < space_.variables().size(); ++v) free[v] = facts[v];
  return diagrams_.freed(set, diagrams_.group(free));
}

bool Ways::is_own(StepId step, std::size_t watch) const { return sides_.is_now(step) == (watch >= sides_.now_watches); }

/// All questions that the conditions read, marked among the variables.
Told Ways::questions_of(const Conditions& conditions) const {
  Told facts;
  for (const Condition& condition : conditions) {
    const Subject subject = subject_of(condition);
    if (subject.kind != Subject::Kind::fact || protocol_.facts[subject.index].from_child) continue;
    if (const auto place = space_.place_of(subject)) facts[*place] = true;
  }
  return facts;
}
/// The questions whose answers, told while the step waits, let the rule lead on at once.
std::optional<Told> Ways::early_reads_of(const Rule& rule) const {
  const auto is_question = [&](const Condition& condition) {
    const auto fact = question_in(protocol_, condition);
    return fact && space_.place_of(*fact);
  };
  if (!rule.early || rule.when.empty() || !std::all_of(rule.when.begin(), rule.when.end(), is_question))
    return std::nullopt;
  return questions_of(rule.when);
}
bool Ways::is_within(const Told& some, const Told& all) { return (some & ~all).none(); }
Told Ways::asked_in(const std::vector<Ask>& asks) const {
  Told facts;
  for (const Ask& ask : asks) {
    if (const auto place = space_.place_of(ask.fact)) facts[*place] = true;
  }
  return facts;
}

Ending Ways::ending_of(const Rule& rule) const {
  if (!rule.visits.empty()) return {Ending::Kind::visit, rule.go, rule.visits};
  if (!rule.hands_over_to.empty()) return {Ending::Kind::hand_over, {}, rule.hands_over_to};
  return {Ending::Kind::step, rule.go, {}};
}

void Ways::add_watches(StepId from, const std::vector<WatchId>& handled, const Told& told, const Told& news,
                       const std::vector<Diagrams::MapId>& counted, Diagrams::Set& taken, std::vector<OneWay>& ways) {
  for (std::size_t i = 0; i < protocol_.watch.size(); ++i) {
    const Watch& watch = protocol_.watch[i];
    if (!is_own(from, i) || has(handled, i)) continue;
    if (!is_within(watch_reads_[i], watch.told ? news : told)) continue;
    const Diagrams::Set holding = before_counting(watch_holds_[i], counted);
    const Diagrams::Set when = diagrams_.without(holding, taken);
    if (when == Diagrams::kNone) continue;
    ways.push_back(OneWay{when, {Ending::Kind::step, watch.go, {}}, {}, false, i});
    taken = diagrams_.either(taken, holding);
  }
}

void Ways::add_watches_at_once(const OneSide& standing, Diagrams::Set& taken, std::vector<OneWay>& ways) {
  add_watches(standing.step, protocol_[standing.step].handles, standing.told, standing.news, standing.counted, taken,
              ways);
  for (OneWay& way : ways) way.at_once = true;
}

Diagrams::Set Ways::holding_of(const Step& step, const Rule& rule) {
  Diagrams::Set holding = space_.where(diagrams_, rule.when);
  for (std::size_t a = 0; a < step.asks.size() && rule.otherwise; ++a)
    holding = diagrams_.both(holding, space_.known(diagrams_, step.asks[a].fact));
  return holding;
}

OneWay Ways::way_of(Diagrams::Set when, const Rule& rule) const {
  OneWay way{when, ending_of(rule), {}};
  for (const CounterId counter : rule.resets) way.tally.push_back({Tally::Kind::resets, counter.index});
  for (const MarkId mark : rule.sets) way.tally.push_back({Tally::Kind::marks, mark.index});
  return way;
}

/// In terms of what the counters were when the occasion came.
Diagrams::Set Ways::before_counting(Diagrams::Set set, const std::vector<Diagrams::MapId>& counted) {
  for (std::size_t i = counted.size(); i-- > 0;) set = diagrams_.moved_back(set, counted[i]);
  return set;
}
Ways::Counting Ways::counting_of(CounterId counter) const {
  const auto place = space_.place_of(Subject{Subject::Kind::counter, counter.index});
  if (!place) return {};
  const std::size_t values = space_.variables()[*place].stretches.size();
  Diagrams::Values more(values, 0);
  for (std::size_t i = 0; i < values; ++i) more[i] = static_cast<std::uint16_t>(std::min(i + 1, values - 1));
  return {diagrams_.map(*place, std::move(more)), diagrams_.map(*place, Diagrams::Values(values, 0))};
}

/// What is asked in the step itself: not what a step before has asked for, or what is known and fresh.
Told Ways::open_in(const OneSide& standing) const {
  const Asked& asked = asked_[standing.step.index];
  return standing.known ? asked.anew : asked.anew | (asked.all & ~standing.told);
}

/// What is news, or unused, where the way leads. Where the step has asked, it is its answers alone; where it was gone
/// through, what was told before is as new as it was. A rule has used what its step asks for.
Told Ways::left_with(const OneSide& standing, const OneWay& way, const Told& before) const {
  const Told open = open_in(standing);
  if (way.at_once || open.none()) return way.watch ? before : before & ~asked_[standing.step.index].all;
  return way.watch ? open : Told{};
}

// Whether it makes a difference that an answer is news.
bool Ways::may_be_known(StepId id) const {
  for (const Ask& ask : protocol_[id].asks) {
    const auto place = space_.place_of(ask.fact);
    if (!place || !ask.fresh) continue;
    for (std::size_t i = 0; i < protocol_.watch.size(); ++i) {
      if (protocol_.watch[i].told && is_own(id, i) && watch_reads_[i][*place] && !has(protocol_[id].handles, i))
        return true;
    }
  }
  return false;
}

/// Everything that answering the questions of a step can come to, what was told before at the same moment included.
const std::vector<OneWay>& Ways::ways_on(const OneSide& standing) {
  const auto [found, is_new] = found_.try_emplace(
      Standing{standing.step.index, false, standing.known, standing.told, standing.news, {}, standing.counted});
  if (!is_new) return found->second;
  const Step& step = protocol_[standing.step];
  const Told& asked = asked_[standing.step.index].all;
  std::vector<OneWay>& ways = found->second;
  Diagrams::Set taken = Diagrams::kNone;
  if (!standing.leaves) add_watches_at_once(standing, taken, ways);
  add_watches(standing.step, step.handles, standing.told | asked, standing.news | open_in(standing), standing.counted,
              taken, ways);
  for (std::size_t r = 0; r < step.rules.size(); ++r) {
    const Diagrams::Set holding = before_counting(rule_holds_[standing.step.index][r], standing.counted);
    ways.push_back(way_of(diagrams_.without(holding, taken), step.rules[r]));
    taken = diagrams_.either(taken, holding);
  }
  ways.push_back(OneWay{diagrams_.without(Diagrams::kAll, taken), {Ending::Kind::nothing, {}, {}}, {}});
  return ways;
}

/// What may be told while a step waits and leads on at once.
std::vector<OneWay> Ways::early_ways(StepId id) {
  const Step& step = protocol_[id];
  std::vector<OneWay> ways;
  Diagrams::Set taken = Diagrams::kNone;
  // A danger that the same answers tell comes before the rule: that is what is told at any time.
  Told told = asked_in(step.asks);
  for (const std::optional<Told>& reads : early_reads_[id.index]) told |= reads.value_or(Told{});
  std::vector<OneWay> dangers;
  add_watches(id, step.handles, told, told, {}, taken, dangers);
  for (std::size_t r = 0; r < step.rules.size(); ++r) {
    const Rule& rule = step.rules[r];
    if (!rule.early || rule.when.empty()) continue;
    const Diagrams::Set holding = rule_holds_[id.index][r];
    ways.push_back(way_of(diagrams_.without(holding, taken), rule));
    taken = diagrams_.either(taken, holding);
  }
  ways.push_back(OneWay{diagrams_.without(Diagrams::kAll, taken), {Ending::Kind::stays, {}, {}}, {}});
  return ways;
}

// All that it asks has just been answered, and that is good enough for it: nobody gets to see what else is to be
// done.
bool Ways::is_passed_unseen(const OneSide& standing) const {
  const Step& step = protocol_[standing.step];
  if (step.wait || step.ends || step.asks.empty()) return false;
  if (std::any_of(step.asks.begin(), step.asks.end(), [](const Ask& ask) { return !ask.fresh; })) return false;
  const Asked& asked = asked_[standing.step.index];
  return standing.known || (!asked.any_unread && is_within(asked.all, standing.told));
}

// It has something to do or to wait for, or asks once more what has just been told: a reading is never its own check.
bool Ways::is_at_rest(const OneSide& standing) const {
  const Step& step = protocol_[standing.step];
  if (is_passed_unseen(standing)) return false;
  if (!step.actions.empty() || step.wait || step.ends || step.ends_visit) return true;
  return (asked_[standing.step.index].anew & standing.told).any();
}

Gone Ways::stepped(const OneWay& way, const Told& told, const Told& news, const Told& unused, bool known,
                   std::vector<Diagrams::MapId> counted) const {
  Gone gone{{way.to.step, false, known, way.asks_itself ? Told{} : told, {}, {}, {}, std::move(counted)}, way.tally};
  OneSide& next = gone.to;
  if (!way.asks_itself) next.news = news & awaited_, next.unused = unused & awaited_early_;
  if (way.watch && protocol_.watch[*way.watch].told) next.news &= ~watch_reads_[*way.watch];
  const auto count = [&](const std::optional<Diagrams::MapId>& becomes) {
    if (becomes) next.counted.push_back(*becomes);
  };
  for (const Tally& each : way.tally) {
    if (each.kind == Tally::Kind::resets) count(counting_[each.index].back_to_none);
  }
  if (way.to.kind != Ending::Kind::step) {
    next.ending = way.to;
  } else if (const auto counts = protocol_[way.to.step].counts) {
    gone.tally.push_back({Tally::Kind::counts, counts->index});
    count(counting_[counts->index].one_more);
  }
  return gone;
}

// What was told together with a danger, and led nowhere yet, may end a wait as soon as it begins.
void Ways::add_early_at_once(const OneSide& standing, Diagrams::Set& taken, std::vector<OneWay>& ways) {
  const Step& step = protocol_[standing.step];
  for (std::size_t r = 0; r < step.rules.size(); ++r) {
    const std::optional<Told>& reads = early_reads_[standing.step.index][r];
    if (!reads || !is_within(*reads, standing.unused)) continue;
    const Diagrams::Set holding = before_counting(rule_holds_[standing.step.index][r], standing.counted);
    const Diagrams::Set when = diagrams_.without(holding, taken);
    if (when == Diagrams::kNone) continue;
    ways.push_back(way_of(when, step.rules[r]));
    ways.back().at_once = true;
    taken = diagrams_.either(taken, holding);
  }
}

// A danger told just before is known where one comes to, and leads away from there unless it is handled.
const std::vector<OneWay>& Ways::ways_at_rest(const OneSide& standing) {
  const auto [found, is_new] = found_.try_emplace(
      Standing{standing.step.index, true, false, standing.told, standing.news, standing.unused, standing.counted});
  if (!is_new) return found->second;
  std::vector<OneWay>& ways = found->second;
  Diagrams::Set taken = Diagrams::kNone;
  // Where the night has ended nobody looks at what else was told.
  if (!protocol_[standing.step].ends) add_watches_at_once(standing, taken, ways);
  for (OneWay& way : ways) {
    if (way.to.step == standing.step) way.to.kind = Ending::Kind::here;  // it leads to where one is
  }
  add_early_at_once(standing, taken, ways);
  ways.push_back(OneWay{diagrams_.without(Diagrams::kAll, taken), {Ending::Kind::here, standing.step, {}}, {}});
  return ways;
}

Gone Ways::further(const OneSide& standing, const OneWay& way) const {
  if (way.to.kind == Ending::Kind::here) {
    Gone rested{standing, {}};
    rested.to.ending = Ending{Ending::Kind::step, standing.step, {}};
    return rested;
  }
  const Told asked = way.at_once ? Told{} : asked_[standing.step.index].all;
  const Told news = left_with(standing, way, standing.news), unused = left_with(standing, way, standing.unused);
  Gone gone = stepped(way, standing.told | asked, news, unused, standing.known, standing.counted);
  if (standing.leaves) return gone;
  for (const ActionId action : protocol_[standing.step].actions) {
    if (const auto& call = protocol_[action].call) {
      const bool now = call->contact == Contact::clinic && protocol_[standing.step].urgency >= Urgency::clinic_now;
      gone.tally.push_back(
          {Tally::Kind::calls, static_cast<std::uint16_t>(call_bit(call->contact) | (now ? kClinicNow : 0U))});
    }
  }
  return gone;
}

std::vector<OneWay> Ways::first_ways(StepId step, const std::vector<Ask>& opening) {
  std::vector<OneWay> ways;
  Diagrams::Set taken = Diagrams::kNone;
  add_watches(step, protocol_[step].handles, asked_in(opening), asked_in(opening), {}, taken, ways);
  // The opening is asked in the first step: its own questions need not be asked again.
  ways.push_back(OneWay{diagrams_.without(Diagrams::kAll, taken), {Ending::Kind::step, step, {}}, {}, true});
  return ways;
}

std::vector<OneWay> Ways::when_told(StepId step, const Told& told) {
  std::vector<OneWay> ways;
  Diagrams::Set taken = Diagrams::kNone;
  add_watches(step, protocol_[step].handles, told, told, {}, taken, ways);
  ways.push_back(OneWay{diagrams_.without(Diagrams::kAll, taken), {Ending::Kind::stays, {}, {}}, {}});
  return ways;
}

// Each thing that a watch of either version looks at by itself, all of the news at once, and all of them at once: with
// the news alone, a danger is what it was before, and may be one that nobody has spoken of.
std::vector<Told> Ways::tellings() const {
  std::vector<Told> tellings;
  const auto add = [&](const Told& told) {
    if (std::find(tellings.begin(), tellings.end(), told) == tellings.end()) tellings.push_back(told);
  };
  Told all, news;
  for (std::size_t i = 0; i < watch_reads_.size(); ++i) {
    all |= watch_reads_[i];
    if (protocol_.watch[i].told) news |= watch_reads_[i];
    add(watch_reads_[i]);
  }
  if (news.any()) add(news);
  add(all);
  return tellings;
}

}  // namespace rushlight
