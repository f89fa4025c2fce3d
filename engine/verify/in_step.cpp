#include "verify/in_step.hpp"

#include <algorithm>
#include <deque>

#include "verify/program.hpp"
#include "verify/step_parts.hpp"

namespace rushlight {
namespace {

using Told = std::vector<bool>;  // by variable: answered since the last deed or wait

constexpr std::size_t kMostArrivals = 200'000;

bool has(const std::vector<WatchId>& watches, std::size_t index) {
  return std::any_of(watches.begin(), watches.end(), [&](WatchId each) { return each.index == index; });
}

struct Way {
  Diagrams::Set when;
  Ending to;
  std::vector<Tally> tally;
  bool asks_itself = false;  // what was told counts as told in the step it leads to
};

/// Where one version stands within what the other goes through at the same moment.
struct Standing {
  StepId step;
  bool leaves;  // its own answers are next, whether or not it has something to do
  Told told;
  std::vector<Tally> tally{};
  std::optional<Ending> ending{};
  std::vector<StepId> passed{};                // gone through at this moment
  std::vector<Diagrams::MapId> counted{};      // what was counted and set back since, in this order
};

class Walk {
 public:
  Walk(const SideBySide& sides, const Space& space, Diagrams& diagrams)
      : sides_(sides),
        protocol_(sides.both),
        space_(space),
        diagrams_(diagrams),
        program_(space, diagrams, {{}, Promptness::at_once, std::vector<CounterId>{}}) {
    for (const Watch& watch : protocol_.watch) {
      watch_holds_.push_back(space_.where(diagrams_, watch.when));
      watch_reads_.push_back(questions_of(watch.when));
    }
    for (const Step& step : protocol_.steps) {
      asked_.push_back(asked_in(step.asks));
      rule_holds_.emplace_back();
      for (const Rule& rule : step.rules) rule_holds_.back().push_back(holding_of(step, rule));
    }
    told_ = nothing_told();
    for (std::size_t v = 0; v + 1 < told_.size(); ++v) told_[v] = is_told(v);
  }

  InStep walked() {
    begin();
    while (!queue_.empty() && !result_.gave_up) {
      const std::size_t next = queue_.front();
      queue_.pop_front();
      queued_[next] = false;
      leave(next);
    }
    leave_out_what_is_said();
    result_.ways = ways_.size();
    result_.ways_apart = apart_.size();
    return std::move(result_);
  }

 private:
  // What answers from before come to, where it is the same as when they are given now, is said once.
  void leave_out_what_is_said() {
    for (Parting& known : result_.partings) {
      if (known.occasion.kind != Occasion::Kind::known) continue;
      for (const Parting& other : result_.partings) {
        if (other.occasion.kind == Occasion::Kind::answers && other.occasion.from == known.occasion.from &&
            other.was == known.was && other.now == known.now)
          known.where = diagrams_.without(known.where, other.where);
      }
    }
    const auto is_empty = [](const Parting& parting) { return parting.where == Diagrams::kNone; };
    result_.partings.erase(std::remove_if(result_.partings.begin(), result_.partings.end(), is_empty),
                           result_.partings.end());
  }

  // What is told or counted may be anything at the next occasion; what the child is stays.
  bool is_told(std::size_t v) const {
    const Subject& subject = space_.variables()[v].subject;
    return subject.kind != Subject::Kind::done && !stays_through_the_night(protocol_, subject);
  }
  Told nothing_told() const { return Told(space_.variables().size() + 1, false); }

  Diagrams::Set freed(Diagrams::Set set, const Told& facts) { return diagrams_.freed(set, diagrams_.group(facts)); }

  bool is_own(StepId step, std::size_t watch) const { return sides_.is_now(step) == (watch >= sides_.now_watches); }

  /// All questions that the conditions read, marked among the variables.
  Told questions_of(const Conditions& conditions) const {
    Told facts = nothing_told();
    for (const Condition& condition : conditions) {
      const Subject subject = subject_of(condition);
      if (subject.kind != Subject::Kind::fact || protocol_.facts[subject.index].from_child) continue;
      if (const auto place = space_.place_of(subject)) facts[*place] = true;
    }
    return facts;
  }
  static bool is_within(const Told& some, const Told& all) {
    for (std::size_t v = 0; v < some.size(); ++v) {
      if (some[v] && !all[v]) return false;
    }
    return true;
  }
  Told asked_in(const std::vector<Ask>& asks) const {
    Told facts = nothing_told();
    for (const Ask& ask : asks) {
      if (const auto place = space_.place_of(ask.fact)) facts[*place] = true;
    }
    return facts;
  }
  static Told together(Told some, const Told& others) {
    for (std::size_t v = 0; v < some.size(); ++v) some[v] = some[v] || others[v];
    return some;
  }

  Ending ending_of(const Rule& rule) const {
    if (!rule.visits.empty()) return {Ending::Kind::visit, rule.go, rule.visits};
    if (!rule.hands_over_to.empty()) return {Ending::Kind::hand_over, {}, rule.hands_over_to};
    return {Ending::Kind::step, rule.go, {}};
  }

  void add_watches(StepId from, const std::vector<WatchId>& handled, const Told& told, const Told& news,
                   Diagrams::Set& taken, std::vector<Way>& ways) {
    for (std::size_t i = 0; i < protocol_.watch.size(); ++i) {
      const Watch& watch = protocol_.watch[i];
      if (!is_own(from, i) || has(handled, i)) continue;
      if (!is_within(watch_reads_[i], watch.told ? news : told)) continue;
      const Diagrams::Set holding = watch_holds_[i];
      ways.push_back(Way{diagrams_.without(holding, taken), {Ending::Kind::step, watch.go, {}}, {}});
      taken = diagrams_.either(taken, holding);
    }
  }

  Diagrams::Set holding_of(const Step& step, const Rule& rule) {
    Diagrams::Set holding = space_.where(diagrams_, rule.when);
    for (std::size_t a = 0; a < step.asks.size() && rule.otherwise; ++a)
      holding = diagrams_.both(holding, space_.known(diagrams_, step.asks[a].fact));
    return holding;
  }

  Way way_of(Diagrams::Set when, const Rule& rule) const {
    Way way{when, ending_of(rule), {}};
    for (const CounterId counter : rule.resets) way.tally.push_back({Tally::Kind::resets, counter.index});
    for (const MarkId mark : rule.sets) way.tally.push_back({Tally::Kind::marks, mark.index});
    return way;
  }

  /// In terms of what the counters were when the occasion came.
  Diagrams::Set before_counting(Diagrams::Set set, const std::vector<Diagrams::MapId>& counted) {
    for (std::size_t i = counted.size(); i-- > 0;) set = diagrams_.moved_back(set, counted[i]);
    return set;
  }
  void count(std::vector<Diagrams::MapId>& counted, CounterId counter, bool back_to_none) {
    const auto place = space_.place_of(Subject{Subject::Kind::counter, counter.index});
    if (!place) return;
    const std::size_t values = space_.variables()[*place].stretches.size();
    Diagrams::Values to(values, 0);
    for (std::size_t i = 0; i < values && !back_to_none; ++i)
      to[i] = static_cast<std::uint16_t>(std::min(i + 1, values - 1));
    counted.push_back(diagrams_.map(*place, std::move(to)));
  }

  /// What is told in the step itself: not what a step before has asked for, or what is known and fresh.
  Told news_of(const Standing& standing) const {
    Told news = nothing_told();
    for (const Ask& ask : protocol_[standing.step].asks) {
      const auto place = space_.place_of(ask.fact);
      if (place) news[*place] = !ask.fresh || !(known_before_ || standing.told[*place]);
    }
    return news;
  }

  // Whether it makes a difference that an answer is news.
  bool may_be_known(StepId id) const {
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
  std::vector<Way> ways_on(const Standing& standing) {
    const Step& step = protocol_[standing.step];
    const Told& asked = asked_[standing.step.index];
    std::vector<Way> ways;
    Diagrams::Set taken = Diagrams::kNone;
    add_watches(standing.step, step.handles, together(standing.told, asked), news_of(standing), taken, ways);
    for (std::size_t r = 0; r < step.rules.size(); ++r) {
      const Diagrams::Set holding = before_counting(rule_holds_[standing.step.index][r], standing.counted);
      ways.push_back(way_of(diagrams_.without(holding, taken), step.rules[r]));
      taken = diagrams_.either(taken, holding);
    }
    ways.push_back(Way{diagrams_.without(Diagrams::kAll, taken), {Ending::Kind::nothing, {}, {}}, {}});
    return ways;
  }

  /// What may be told while a step waits and leads on at once.
  std::vector<Way> early_ways(StepId id) {
    const Step& step = protocol_[id];
    std::vector<Way> ways;
    Diagrams::Set taken = Diagrams::kNone;
    for (std::size_t r = 0; r < step.rules.size(); ++r) {
      const Rule& rule = step.rules[r];
      if (!rule.early || rule.when.empty()) continue;
      const Diagrams::Set holding = rule_holds_[id.index][r];
      ways.push_back(way_of(diagrams_.without(holding, taken), rule));
      taken = diagrams_.either(taken, holding);
    }
    ways.push_back(Way{diagrams_.without(Diagrams::kAll, taken), {Ending::Kind::stays, {}, {}}, {}});
    return ways;
  }

  // All that it asks has just been answered, and that is good enough for it: nobody gets to see what else is to be done.
  bool is_passed_unseen(const Standing& standing) const {
    const Step& step = protocol_[standing.step];
    if (step.wait || step.ends || step.asks.empty()) return false;
    return std::all_of(step.asks.begin(), step.asks.end(), [&](const Ask& ask) {
      const auto place = space_.place_of(ask.fact);
      return ask.fresh && (known_before_ || (place && standing.told[*place]));
    });
  }

  // It has something to do or to wait for, or asks once more what has just been told: a reading is never its own check.
  bool is_at_rest(const Standing& standing) const {
    const Step& step = protocol_[standing.step];
    // Nobody goes round twice at one moment: the engine stops there as well.
    if (std::find(standing.passed.begin(), standing.passed.end(), standing.step) != standing.passed.end()) return true;
    if (is_passed_unseen(standing)) return false;
    if (!step.actions.empty() || step.wait || step.ends || step.ends_visit) return true;
    return std::any_of(step.asks.begin(), step.asks.end(), [&](const Ask& ask) {
      const auto place = space_.place_of(ask.fact);
      return place && !ask.fresh && standing.told[*place];
    });
  }

  const std::string& name(StepId step) const { return protocol_[step].name; }
  bool has_step(bool now, const std::string& wanted) const {
    const std::size_t first = now ? sides_.now_steps : 0;
    const std::size_t end = now ? protocol_.steps.size() : sides_.now_steps;
    for (std::size_t i = first; i < end; ++i) {
      if (protocol_.steps[i].name == wanted) return true;
    }
    return false;
  }
  bool is_renamed(StepId was, StepId now) const {
    if (has_step(true, name(was)) || has_step(false, name(now))) return false;
    const Step &a = protocol_[was], &b = protocol_[now];
    if (a.ends != b.ends || a.wait.has_value() != b.wait.has_value() || a.actions.size() != b.actions.size())
      return false;
    return std::all_of(a.actions.begin(), a.actions.end(),
                       [&](ActionId action) { return counterpart(sides_, action, now).has_value(); });
  }
  bool stay_together(StepId was, StepId now) const {
    return name(was) == name(now) || is_renamed(was, now) || look_alike(sides_, was, now);
  }

  void begin() {
    const StepId was = protocol_.start, now = sides_.now_start;
    const Diagrams::Set start = diagrams_.either(program_.at_start_of(was), program_.at_start_of(now));
    const Diagrams::Set anything = freed(start, told_);
    const auto first_ways = [&](StepId step, const std::vector<Ask>& opening) {
      std::vector<Way> ways;
      Diagrams::Set taken = Diagrams::kNone;
      add_watches(step, {}, asked_in(opening), nothing_told(), taken, ways);
      // The opening is asked in the first step: its own questions need not be asked again.
      ways.push_back(Way{diagrams_.without(Diagrams::kAll, taken), {Ending::Kind::step, step, {}}, {}, true});
      return ways;
    };
    go_on(first_ways(was, protocol_.opening), first_ways(now, sides_.now_opening), asked_in(protocol_.opening),
          asked_in(sides_.now_opening), Occasion{Occasion::Kind::begins}, anything, anything);
  }

  /// Both go on from one occasion, each by its own ways.
  void go_on(const std::vector<Way>& was, const std::vector<Way>& now, const Told& was_told, const Told& now_told,
             const Occasion& occasion, Diagrams::Set where, Diagrams::Set within) {
    for (const Way& one : was) {
      const Diagrams::Set part = diagrams_.both(where, one.when);
      if (part == Diagrams::kNone) continue;
      for (const Way& other : now) {
        const Diagrams::Set set = diagrams_.both(part, other.when);
        if (set == Diagrams::kNone) continue;
        chain(stepped(one, was_told, {}), stepped(other, now_told, {}), set, occasion, within, 0);
      }
    }
  }

  Standing stepped(const Way& way, const Told& told, const std::vector<Tally>& before,
                   std::vector<Diagrams::MapId> counted = {}) {
    Standing next{way.to.step, false, way.asks_itself ? nothing_told() : told, before, {}, {}, std::move(counted)};
    next.tally.insert(next.tally.end(), way.tally.begin(), way.tally.end());
    for (const Tally& each : way.tally) {
      if (each.kind == Tally::Kind::resets) count(next.counted, CounterId{each.index}, true);
    }
    if (way.to.kind != Ending::Kind::step) {
      next.ending = way.to;
    } else if (const auto counts = protocol_[way.to.step].counts) {
      next.tally.push_back({Tally::Kind::counts, counts->index});
      count(next.counted, *counts, false);
    }
    return next;
  }

  void chain(Standing was, Standing now, Diagrams::Set where, const Occasion& occasion, Diagrams::Set within,
             std::size_t depth) {
    if (result_.gave_up) return;
    if (++arrivals_ > kMostArrivals || depth > protocol_.steps.size() + 4) {
      result_.gave_up = true;
      return;
    }
    if (was.ending && now.ending) return arrive(std::move(was), std::move(now), where, occasion, within, depth);
    const bool was_rests = rests_beside(was, now), now_rests = rests_beside(now, was);
    const bool only_ask = !was.ending && !now.ending && !was_rests && !now_rests;
    if (only_ask && !was.leaves && !now.leaves && name(was.step) == name(now.step))
      note(Together{was.step, now.step}, where, false);
    const std::vector<Way> stays{Way{Diagrams::kAll, {}, {}}};
    const std::vector<Way> was_ways = was.ending ? stays : was_rests ? ways_at_rest(was) : ways_on(was);
    const std::vector<Way> now_ways = now.ending ? stays : now_rests ? ways_at_rest(now) : ways_on(now);
    for (const Way& one : was_ways) {
      const Diagrams::Set part = diagrams_.both(where, one.when);
      if (part == Diagrams::kNone) continue;
      for (const Way& other : now_ways) {
        const Diagrams::Set set = diagrams_.both(part, other.when);
        if (set == Diagrams::kNone) continue;
        Standing next_was = was.ending ? was : further(was, one), next_now = now.ending ? now : further(now, other);
        chain(std::move(next_was), std::move(next_now), set, occasion, within, depth + 1);
      }
    }
  }

  bool rests(const Standing& standing) const { return !standing.leaves && is_at_rest(standing); }

  // Where one version has something to do, the other is looked at in the same step, even if it only asks there.
  bool rests_beside(const Standing& standing, const Standing& other) const {
    if (standing.ending || standing.leaves) return false;
    if (rests(standing)) return true;
    const bool other_rests = other.ending ? other.ending->kind == Ending::Kind::step : rests(other);
    const StepId step = other.ending ? other.ending->step : other.step;
    return other_rests && name(step) == name(standing.step) && !is_passed_unseen(standing);
  }

  // A danger told just before is known where one comes to, and leads away from there unless it is handled.
  std::vector<Way> ways_at_rest(const Standing& standing) {
    std::vector<Way> ways;
    Diagrams::Set taken = Diagrams::kNone;
    add_watches(standing.step, protocol_[standing.step].handles, standing.told, nothing_told(), taken, ways);
    for (Way& way : ways) {
      if (way.to.step == standing.step) way.to.kind = Ending::Kind::here;  // it leads to where one is
    }
    ways.push_back(Way{diagrams_.without(Diagrams::kAll, taken), {Ending::Kind::here, standing.step, {}}, {}});
    return ways;
  }

  Standing further(const Standing& standing, const Way& way) {
    if (way.to.kind != Ending::Kind::here && !standing.leaves) {
      Standing passed = standing;
      for (const ActionId action : protocol_[standing.step].actions) {
        if (const auto& call = protocol_[action].call)
          passed.tally.push_back({Tally::Kind::calls, static_cast<std::uint16_t>(call->contact)});
      }
      Standing next = stepped(way, together(passed.told, asked_[passed.step.index]), passed.tally, passed.counted);
      next.passed = std::move(passed.passed);
      next.passed.push_back(standing.step);
      return next;
    }
    if (way.to.kind == Ending::Kind::here) {
      Standing rested = standing;
      rested.ending = Ending{Ending::Kind::step, standing.step, {}};
      return rested;
    }
    return stepped(way, together(standing.told, asked_[standing.step.index]), standing.tally, standing.counted);
  }

  template <class Thing>
  Thing& kept(std::vector<Thing>& things, Thing thing) {
    const auto same = [&](const Thing& other) { return is_same(other, thing); };
    const auto found = std::find_if(things.begin(), things.end(), same);
    if (found == things.end()) {
      things.push_back(std::move(thing));
      return things.back();
    }
    found->where = diagrams_.either(found->where, thing.where);
    found->within = diagrams_.either(found->within, thing.within);
    return *found;
  }
  static bool is_same(const Parting& a, const Parting& b) {
    return a.occasion == b.occasion && a.was == b.was && a.now == b.now;
  }
  static bool is_same(const OtherTally& a, const OtherTally& b) {
    return a.occasion == b.occasion && a.was == b.was && a.now == b.now;
  }
  static bool is_same(const PutIn& a, const PutIn& b) { return a.occasion == b.occasion && a.step == b.step; }

  void arrive(Standing was, Standing now, Diagrams::Set where, const Occasion& occasion, Diagrams::Set within,
              std::size_t depth) {
    const Ending &one = *was.ending, &other = *now.ending;
    const bool both_steps = one.kind == Ending::Kind::step && other.kind == Ending::Kind::step;
    if (both_steps && !stay_together(one.step, other.step)) {
      if (is_put_in(other.step, one.step, false)) {
        kept(result_.put_in, PutIn{occasion, other.step, where, within});
        now.ending.reset();
        now.step = other.step, now.leaves = true;
        return chain(std::move(was), std::move(now), where, occasion, within, depth + 1);
      }
      if (is_put_in(one.step, other.step, true)) {
        kept(result_.put_in, PutIn{occasion, one.step, where, within});
        was.ending.reset();
        was.leaves = true;
        return chain(std::move(was), std::move(now), where, occasion, within, depth + 1);
      }
    }
    const bool together_still =
        both_steps ? stay_together(one.step, other.step) : one.kind == other.kind && one.protocol == other.protocol;
    count_way(occasion, one, other, !together_still);
    if (!together_still) {
      kept(result_.partings, Parting{occasion, one, other, where, within});
      return;
    }
    std::sort(was.tally.begin(), was.tally.end());
    std::sort(now.tally.begin(), now.tally.end());
    if (was.tally != now.tally) kept(result_.tallies, OtherTally{occasion, was.tally, now.tally, where, within});
    if (both_steps) note(Together{one.step, other.step}, where, true);
    if (one.kind != Ending::Kind::visit) return;
    // What the other protocol asks may have been answered anew there.
    const Occasion back{Occasion::Kind::after_visit, occasion.from, {}, Outcome::given};
    const Way was_back{Diagrams::kAll, {Ending::Kind::step, one.step, {}}, {}};
    const Way now_back{Diagrams::kAll, {Ending::Kind::step, other.step, {}}, {}};
    const Diagrams::Set anything = freed(where, told_);
    const Together backs{one.step, other.step};
    auto known_back = std::find_if(backs_.begin(), backs_.end(), [&](const InStepPair& each) { return each.steps == backs; });
    if (known_back == backs_.end()) known_back = backs_.insert(backs_.end(), InStepPair{backs, Diagrams::kNone});
    if (diagrams_.without(anything, known_back->entered) == Diagrams::kNone) return;
    known_back->entered = diagrams_.either(known_back->entered, anything);
    chain(stepped(was_back, nothing_told(), {}), stepped(now_back, nothing_told(), {}), anything, back, anything,
          0);
  }

  /// A step that only this version has, before a step that both have; one goes on from it by its answers alone.
  bool is_put_in(StepId step, StepId beside, bool was) const {
    const Step& put = protocol_[step];
    return !put.wait && !put.ends && !put.ends_visit && !has_step(was, name(step)) && has_step(was, name(beside));
  }

  void count_way(const Occasion& occasion, const Ending& was, const Ending& now, bool apart) {
    const auto number = [](const Ending& ending) {
      return static_cast<int>(ending.kind) * 100'000 + ending.step.index;
    };
    const std::vector<int> key{static_cast<int>(occasion.kind),    occasion.from.was.index, occasion.from.now.index,
                               occasion.action.index,              static_cast<int>(occasion.outcome),
                               number(was),                        number(now)};
    ways_.emplace(key, 0);
    if (apart) apart_.emplace(key, 0);
  }

  void note(const Together& steps, Diagrams::Set where, bool goes_on) {
    std::size_t place = 0;
    while (place < result_.pairs.size() && !(result_.pairs[place].steps == steps && at_rest_[place] == goes_on)) ++place;
    if (place == result_.pairs.size()) {
      result_.pairs.push_back(InStepPair{steps, Diagrams::kNone});
      queued_.push_back(false);
      at_rest_.push_back(goes_on);
    }
    InStepPair& pair = result_.pairs[place];
    if (diagrams_.without(where, pair.entered) == Diagrams::kNone) return;
    pair.entered = diagrams_.either(pair.entered, where);
    if (!goes_on || queued_[place]) return;
    queued_[place] = true;
    queue_.push_back(place);
  }

  /// What may be true when something happens to two steps: what was told before is forgotten unless both remember it.
  Diagrams::Set before(const InStepPair& pair) {
    Diagrams::Set set = program_.with_deeds(program_.with_deeds(pair.entered, pair.steps.was), pair.steps.now);
    Told forgotten = nothing_told();
    for (std::size_t v = 0; v + 1 < forgotten.size(); ++v) {
      forgotten[v] = told_[v] && !(keeps(pair.steps.was, v) && keeps(pair.steps.now, v));
    }
    return freed(set, forgotten);
  }
  bool keeps(StepId id, std::size_t v) const {
    if (!program_.remembers(id, v)) return false;
    for (const ActionId action : protocol_[id].actions) {
      const Subject& subject = space_.variables()[v].subject;
      const bool records = protocol_[action].records && protocol_[action].records->fact.index == subject.index;
      const bool times = protocol_[action].kind == ActionKind::insulin && subject.kind == Subject::Kind::fact &&
                         protocol_.facts[subject.index].kind == FactKind::time_since;
      if (records || times) return false;
    }
    return true;
  }

  void leave(std::size_t place) {
    const Together steps = result_.pairs[place].steps;
    const Step &was = protocol_[steps.was], &now = protocol_[steps.now];
    const Diagrams::Set where = before(result_.pairs[place]);
    const Told none = nothing_told();
    const auto occasion = [&](Occasion::Kind kind) { return Occasion{kind, steps, {}, Outcome::given}; };
    if (!was.ends && !now.ends) {
      chain(Standing{steps.was, true, none}, Standing{steps.now, true, none}, where, occasion(Occasion::Kind::answers),
            where, 0);
      if (may_be_known(steps.was) || may_be_known(steps.now)) {
        known_before_ = true;
        chain(Standing{steps.was, true, none}, Standing{steps.now, true, none}, where, occasion(Occasion::Kind::known),
              where, 0);
        known_before_ = false;
      }
      leave_by_outcomes(steps, where);
    }
    if (was.wait && now.wait) {
      go_on(early_ways(steps.was), early_ways(steps.now), asked_[steps.was.index], asked_[steps.now.index],
            occasion(Occasion::Kind::early), where, where);
      go_on({Way{Diagrams::kAll, {Ending::Kind::step, was.wait->go, {}}, {}}},
            {Way{Diagrams::kAll, {Ending::Kind::step, now.wait->go, {}}, {}}}, none, none,
            occasion(Occasion::Kind::nobody_answers), where, where);
    }
    leave_by_watches(steps, where);
  }

  void leave_by_outcomes(const Together& steps, Diagrams::Set where) {
    for (const ActionId was : protocol_[steps.was].actions) {
      const std::optional<ActionId> now = counterpart(sides_, was, steps.now);
      if (!now) continue;
      const Diagrams::Set shown = diagrams_.both(where, diagrams_.both(space_.where(diagrams_, protocol_[was].when),
                                                                       space_.where(diagrams_, protocol_[*now].when)));
      for (int outcome = 0; outcome < kOutcomes; ++outcome) {
        const auto way = [&](ActionId action) {
          const std::optional<OutcomeRule>& rule = protocol_[action].on[static_cast<std::size_t>(outcome)];
          const bool leads = rule && rule->go;
          return Way{Diagrams::kAll,
                     leads ? Ending{Ending::Kind::step, *rule->go, {}} : Ending{Ending::Kind::stays, {}, {}}, {}};
        };
        go_on({way(was)}, {way(*now)}, nothing_told(), nothing_told(),
              Occasion{Occasion::Kind::outcome, steps, was, static_cast<Outcome>(outcome)}, shown, shown);
      }
    }
  }

  // Each thing that a watch of either version looks at is told by itself, and all of them at once.
  void leave_by_watches(const Together& steps, Diagrams::Set where) {
    std::vector<Told> tellings;
    Told all = nothing_told();
    for (const Told& reads : watch_reads_) {
      all = together(all, reads);
      if (std::find(tellings.begin(), tellings.end(), reads) == tellings.end()) tellings.push_back(reads);
    }
    if (std::find(tellings.begin(), tellings.end(), all) == tellings.end()) tellings.push_back(all);
    for (const Told& told : tellings) {
      const auto ways = [&](StepId step) {
        std::vector<Way> found;
        Diagrams::Set taken = Diagrams::kNone;
        add_watches(step, protocol_[step].handles, told, told, taken, found);
        found.push_back(Way{diagrams_.without(Diagrams::kAll, taken), {Ending::Kind::stays, {}, {}}, {}});
        return found;
      };
      const Diagrams::Set anything = freed(where, told);
      go_on(ways(steps.was), ways(steps.now), told, told, Occasion{Occasion::Kind::worse, steps, {}, Outcome::given},
            anything, anything);
    }
  }

  const SideBySide& sides_;
  const Protocol& protocol_;
  const Space& space_;
  Diagrams& diagrams_;
  Program program_;
  std::vector<InStepPair> backs_;  // where both come back to from another protocol
  std::vector<Diagrams::Set> watch_holds_;
  std::vector<Told> watch_reads_, asked_;  // by watch, by step
  std::vector<std::vector<Diagrams::Set>> rule_holds_;
  Told told_;  // everything that can be told
  InStep result_;
  std::deque<std::size_t> queue_;
  std::vector<bool> queued_, at_rest_;  // by pair
  std::map<std::vector<int>, int> ways_, apart_;
  std::size_t arrivals_ = 0;
  bool known_before_ = false;
};

}  // namespace

InStep walked_in_step(const SideBySide& sides, const Space& space, Diagrams& diagrams) {
  return Walk(sides, space, diagrams).walked();
}

}  // namespace rushlight
