#include "verify/in_step.hpp"

#include <algorithm>
#include <deque>

#include "verify/arrivals.hpp"
#include "verify/counterparts.hpp"
#include "verify/program.hpp"

namespace rushlight {
namespace {

constexpr std::size_t kMostFollowed = 4;  // one watch reads no more

class Walk {
 public:
  Walk(const SideBySide& sides, const Space& space, Diagrams& diagrams)
      : sides_(sides),
        protocol_(sides.both),
        space_(space),
        diagrams_(diagrams),
        ways_of_(sides, space, diagrams),
        arrivals_(sides, diagrams, ways_of_),
        program_(space, diagrams, {{}, Promptness::at_once, std::vector<CounterId>{}}) {}

  InStep walked() {
    begin();
    while (!queue_.empty() && !arrivals_.gave_up()) {
      const std::size_t next = queue_.front();
      queue_.pop_front();
      queued_[next] = false;
      leave(next);
    }
    leave_out_what_is_said();
    result_.gave_up = arrivals_.gave_up();
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

  void begin() {
    const StepId was = protocol_.start, now = sides_.now_start;
    const Diagrams::Set start = diagrams_.either(program_.at_start_of(was), program_.at_start_of(now));
    const Diagrams::Set anything = ways_of_.freed(start, ways_of_.everything_told());
    go_on(ways_of_.first_ways(was, protocol_.opening), ways_of_.first_ways(now, sides_.now_opening),
          ways_of_.asked_in(protocol_.opening), ways_of_.asked_in(sides_.now_opening), Occasion{Occasion::Kind::begins},
          anything, anything);
  }

  /// Both go on from one occasion, each by its own ways.
  void go_on(const std::vector<OneWay>& was, const std::vector<OneWay>& now, const Told& was_told, const Told& now_told,
             const Occasion& occasion, Diagrams::Set where, Diagrams::Set within) {
    each_pair(diagrams_, was, now, where, [&](const OneWay& one, const OneWay& other, Diagrams::Set set) {
      const OneSide was_goes = ways_of_.stepped(one, was_told, still_news(was_told), {}),
                    now_goes = ways_of_.stepped(other, now_told, still_news(now_told), {});
      come_to(arrivals_.of_all(was_goes, now_goes), set, occasion, within);
    });
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

  void come_to(const std::vector<Arrival>& arrivals, Diagrams::Set where, const Occasion& occasion,
               Diagrams::Set within) {
    for (const Arrival& arrival : arrivals) {
      const Diagrams::Set set = diagrams_.both(where, arrival.where);
      if (set != Diagrams::kNone) come_to(arrival, set, occasion, within);
    }
  }

  void come_to(const Arrival& arrival, Diagrams::Set where, const Occasion& occasion, Diagrams::Set within) {
    if (arrival.kind == Arrival::Kind::passes) return note(arrival.steps, where, false);
    if (arrival.kind == Arrival::Kind::puts_in) {
      kept(result_.put_in, PutIn{occasion, arrival.steps.was, where, within});
      return;
    }
    const Ending &one = arrival.was, &other = arrival.now;
    count_way(occasion, one, other, !arrival.together);
    if (!arrival.together) {
      kept(result_.partings, Parting{occasion, one, other, where, within});
      return;
    }
    if (arrival.was_tally != arrival.now_tally)
      kept(result_.tallies, OtherTally{occasion, arrival.was_tally, arrival.now_tally, where, within});
    if (one.kind == Ending::Kind::step) note(Together{one.step, other.step}, where, true);
    if (one.kind == Ending::Kind::visit) come_back(Together{one.step, other.step}, where, occasion);
  }

  // What the other protocol asks may have been answered anew there.
  void come_back(const Together& steps, Diagrams::Set where, const Occasion& occasion) {
    const Diagrams::Set anything = ways_of_.freed(where, ways_of_.everything_told());
    auto known =
        std::find_if(backs_.begin(), backs_.end(), [&](const InStepPair& each) { return each.steps == steps; });
    if (known == backs_.end()) known = backs_.insert(backs_.end(), InStepPair{steps, Diagrams::kNone});
    if (diagrams_.is_within(anything, known->entered)) return;
    known->entered = diagrams_.either(known->entered, anything);
    const OneWay was{Diagrams::kAll, {Ending::Kind::step, steps.was, {}}, {}};
    const OneWay now{Diagrams::kAll, {Ending::Kind::step, steps.now, {}}, {}};
    come_to(arrivals_.of(ways_of_.stepped(was, {}, {}, {}), ways_of_.stepped(now, {}, {}, {}), anything), anything,
            Occasion{Occasion::Kind::after_visit, occasion.from, {}, Outcome::given}, anything);
  }

  void count_way(const Occasion& occasion, const Ending& was, const Ending& now, bool apart) {
    const auto number = [](const Ending& ending) {
      return static_cast<int>(ending.kind) * 100'000 + ending.step.index;
    };
    const std::vector<int> key{static_cast<int>(occasion.kind),
                               occasion.from.was.index,
                               occasion.from.now.index,
                               occasion.action.index,
                               static_cast<int>(occasion.outcome),
                               number(was),
                               number(now)};
    ways_.emplace(key, 0);
    if (apart) apart_.emplace(key, 0);
  }

  void note(const Together& steps, Diagrams::Set where, bool goes_on) {
    std::size_t place = 0;
    while (place < result_.pairs.size() && !(result_.pairs[place].steps == steps && at_rest_[place] == goes_on))
      ++place;
    if (place == result_.pairs.size()) {
      result_.pairs.push_back(InStepPair{steps, Diagrams::kNone});
      queued_.push_back(false);
      at_rest_.push_back(goes_on);
    }
    InStepPair& pair = result_.pairs[place];
    if (diagrams_.is_within(where, pair.entered)) return;
    pair.entered = diagrams_.either(pair.entered, where);
    if (!goes_on || queued_[place]) return;
    queued_[place] = true;
    queue_.push_back(place);
  }

  /// What may be true when something happens to two steps: what was told before is forgotten unless both remember it.
  Diagrams::Set before(const InStepPair& pair) {
    Diagrams::Set set = program_.with_deeds(program_.with_deeds(pair.entered, pair.steps.was), pair.steps.now);
    Told forgotten;
    for (std::size_t v = 0; v < space_.variables().size(); ++v) {
      forgotten[v] = ways_of_.everything_told()[v] && !(keeps(pair.steps.was, v) && keeps(pair.steps.now, v));
    }
    return ways_of_.freed(set, forgotten);
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
    const Told none;
    const auto occasion = [&](Occasion::Kind kind) { return Occasion{kind, steps, {}, Outcome::given}; };
    if (!was.ends && !now.ends) {
      leave_by_answers(steps, where, Occasion::Kind::answers);
      if (ways_of_.may_be_known(steps.was) || ways_of_.may_be_known(steps.now)) {
        ways_of_.known_before(true);
        leave_by_answers(steps, where, Occasion::Kind::known);
        ways_of_.known_before(false);
      }
      leave_by_outcomes(steps, where);
    }
    if (was.wait && now.wait) {
      go_on(ways_of_.early_ways(steps.was), ways_of_.early_ways(steps.now), ways_of_.asked_in(was.asks),
            ways_of_.asked_in(now.asks), occasion(Occasion::Kind::early), where, where);
      go_on({OneWay{Diagrams::kAll, {Ending::Kind::step, was.wait->go, {}}, {}}},
            {OneWay{Diagrams::kAll, {Ending::Kind::step, now.wait->go, {}}, {}}}, none, none,
            occasion(Occasion::Kind::nobody_answers), where, where);
    }
    leave_by_watches(steps, where);
  }

  void leave_by_answers(const Together& steps, Diagrams::Set where, Occasion::Kind kind) {
    come_to(arrivals_.of(OneSide{steps.was, true, {}}, OneSide{steps.now, true, {}}, where), where,
            Occasion{kind, steps, {}, Outcome::given}, where);
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
          return OneWay{Diagrams::kAll,
                        leads ? Ending{Ending::Kind::step, *rule->go, {}} : Ending{Ending::Kind::stays, {}, {}},
                        {}};
        };
        go_on({way(was)}, {way(*now)}, Told{}, Told{},
              Occasion{Occasion::Kind::outcome, steps, was, static_cast<Outcome>(outcome)}, shown, shown);
      }
    }
  }

  // Of all that watches look at, told at once, only what is heard first is followed: with the rest the search is twenty
  // times as long.
  Told still_news(const Told& told) const { return told.count() > kMostFollowed ? Told{} : told; }

  void leave_by_watches(const Together& steps, Diagrams::Set where) {
    for (const Told& told : ways_of_.tellings()) {
      const Diagrams::Set anything = ways_of_.freed(where, told);
      go_on(ways_of_.when_told(steps.was, told), ways_of_.when_told(steps.now, told), told, told,
            Occasion{Occasion::Kind::worse, steps, {}, Outcome::given}, anything, anything);
    }
  }

  const SideBySide& sides_;
  const Protocol& protocol_;
  const Space& space_;
  Diagrams& diagrams_;
  Ways ways_of_;
  Arrivals arrivals_;
  Program program_;
  std::vector<InStepPair> backs_;  // where both come back to from another protocol
  InStep result_;
  std::deque<std::size_t> queue_;
  std::vector<bool> queued_, at_rest_;  // by pair
  std::map<std::vector<int>, int> ways_, apart_;
};

}  // namespace

InStep walked_in_step(const SideBySide& sides, const Space& space, Diagrams& diagrams) {
  if (space.variables().size() > kMostThings) {
    InStep none;
    none.gave_up = true;
    return none;
  }
  return Walk(sides, space, diagrams).walked();
}

}  // namespace rushlight
