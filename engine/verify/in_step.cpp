#include "verify/in_step.hpp"

#include <algorithm>
#include <deque>
#include <unordered_map>
#include <unordered_set>

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
        program_(space, diagrams, {{}, Promptness::at_once, std::vector<CounterId>{}}),
        tellings_(ways_of_.tellings()) {}

  InStep walked() {
    begin();
    do {
      while (!queue_.empty() && !arrivals_.gave_up()) {
        const std::size_t next = queue_.front();
        queue_.pop_front();
        queued_[next] = false;
        leave(next);
      }
    } while (stands_where_it_passed());
    leave_out_what_is_said();
    result_.gave_up = arrivals_.gave_up();
    result_.ways = ways_.size();
    result_.ways_apart = apart_.size();
    return std::move(result_);
  }

 private:
  // Steps with something to do that were gone through, since all they ask had just been told: an answer that was still
  // fresh enough for the step before may be too old for them, and then one stands there. True when there is such a one.
  bool stands_where_it_passed() {
    for (std::size_t i = 0; i < result_.pairs.size() && queue_.empty() && !arrivals_.gave_up(); ++i) {
      const InStepPair passed = result_.pairs[i];
      const Step& step = protocol_[passed.steps.was];
      const bool has_something = !step.actions.empty() || step.wait;
      if (!has_something || pairs_.count(key_of(passed.steps, true)) > 0) continue;
      note(passed.steps, ways_of_.freed(passed.entered, ways_of_.everything_told()), true);
    }
    return !queue_.empty() && !arrivals_.gave_up();
  }

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
    go_on(going(ways_of_.first_ways(was, protocol_.opening), ways_of_.asked_in(protocol_.opening)),
          going(ways_of_.first_ways(now, sides_.now_opening), ways_of_.asked_in(sides_.now_opening)),
          Occasion{Occasion::Kind::begins}, anything, anything);
  }

  /// The ways that one version may take on an occasion, and where each begins.
  struct Going {
    std::vector<OneWay> ways;
    std::vector<OneSides::Next> begun;
  };
  // A rule that led on early has used the answers.
  Going going(std::vector<OneWay> ways, const Told& told) {
    Going going{std::move(ways), {}};
    for (const OneWay& way : going.ways) {
      const Told news = way.watch ? still_news(told) : Told{};
      going.begun.push_back(arrivals_.one_sides().numbered(ways_of_.begun(way, told, news)));
    }
    return going;
  }

  /// Both go on from one occasion, each by its own ways.
  void go_on(const Going& was, const Going& now, const Occasion& occasion, Diagrams::Set where, Diagrams::Set within) {
    each_pair(diagrams_, was.ways, now.ways, where, [&](std::size_t i, std::size_t j, Diagrams::Set set) {
      const Diagrams::Set held = diagrams_.both(ways_of_.held_by(was.ways[i]), ways_of_.held_by(now.ways[j]));
      for (const Met& met : arrivals_.met_by(set, was.begun[i], now.begun[j], held))
        come_to(*met.arrival, met.where, occasion, within);
    });
  }

  /// One thing that may come of an occasion, by its number among its like.
  struct Noted {
    std::uint64_t occasion;
    std::uint64_t what;
    friend bool operator==(const Noted&, const Noted&) = default;
  };
  struct Hash {
    std::size_t operator()(const Noted& noted) const {
      return (noted.occasion * 0x9E3779B97F4A7C15U) ^ (noted.what * 0xff51afd7ed558ccdU);
    }
  };
  using Places = std::unordered_map<Noted, std::size_t, Hash>;
  static std::uint64_t number_of(const Occasion& occasion) {
    const auto with = [](std::uint64_t number, std::uint16_t more) { return number << 16U | more; };
    const auto how =
        static_cast<std::uint64_t>(occasion.kind) * kOutcomes + static_cast<std::uint64_t>(occasion.outcome);
    return with(with(with(how, occasion.from.was.index), occasion.from.now.index), occasion.action.index);
  }

  // What is noted once more on an occasion is noted for more cases.
  template <class Thing>
  void keep(Places& places, std::uint64_t what, std::vector<Thing>& things, Thing thing) {
    const auto [place, is_new] = places.try_emplace(Noted{number_of(thing.occasion), what}, things.size());
    if (is_new) {
      things.push_back(std::move(thing));
      return;
    }
    Thing& kept = things[place->second];
    kept.where = diagrams_.either(kept.where, thing.where);
    kept.within = diagrams_.either(kept.within, thing.within);
  }

  void come_to(const std::vector<Arrival>& arrivals, const Occasion& occasion, Diagrams::Set within) {
    for (const Arrival& arrival : arrivals) come_to(arrival, arrival.where, occasion, within);
  }

  void come_to(const Arrival& arrival, Diagrams::Set where, const Occasion& occasion, Diagrams::Set within) {
    if (arrival.kind == Arrival::Kind::passes) return note(arrival.steps, where, false);
    if (arrival.kind == Arrival::Kind::puts_in) {
      keep(put_in_, arrival.steps.was.index, result_.put_in, PutIn{occasion, arrival.steps.was, where, within});
      return;
    }
    const Ending &one = arrival.was, &other = arrival.now;
    // Together where they end, and still apart where one has called somebody on the way.
    const bool apart = !arrival.together || one.calls != other.calls;
    count_way(occasion, one, other, apart);
    if (apart) keep(partings_, arrival.ends, result_.partings, Parting{occasion, one, other, where, within});
    if (!arrival.together) return;
    if (arrival.was_tally != arrival.now_tally) {
      const OneSides& known = arrivals_.one_sides();
      keep(tallies_, std::uint64_t{arrival.was_tally} << 32U | arrival.now_tally, result_.tallies,
           OtherTally{occasion, known.tally(arrival.was_tally), known.tally(arrival.now_tally), where, within});
    }
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
    come_to(arrivals_.of(going({was}, {}).begun.front(), going({now}, {}).begun.front(), anything),
            Occasion{Occasion::Kind::after_visit, occasion.from, {}, Outcome::given}, anything);
  }

  void count_way(const Occasion& occasion, const Ending& was, const Ending& now, bool apart) {
    const auto number = [](const Ending& ending) {
      return static_cast<std::uint64_t>(ending.kind) << 16U | ending.step.index;
    };
    const Noted way{number_of(occasion), number(was) << 32U | number(now)};
    ways_.insert(way);
    if (apart) apart_.insert(way);
  }

  static std::uint64_t key_of(const Together& steps, bool goes_on) {
    return std::uint64_t{steps.was.index} << 32U | std::uint64_t{steps.now.index} << 1U | goes_on;
  }
  void note(const Together& steps, Diagrams::Set where, bool goes_on) {
    const auto [found, is_new] = pairs_.try_emplace(key_of(steps, goes_on), result_.pairs.size());
    const std::size_t place = found->second;
    if (is_new) {
      result_.pairs.push_back(InStepPair{steps, Diagrams::kNone});
      queued_.push_back(false);
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
        leave_by_answers(steps, where, Occasion::Kind::known);
      }
      leave_by_outcomes(steps, where);
    }
    if (was.wait && now.wait) {
      go_on(going(ways_of_.early_ways(steps.was), ways_of_.asked_in(was.asks)),
            going(ways_of_.early_ways(steps.now), ways_of_.asked_in(now.asks)), occasion(Occasion::Kind::early), where,
            where);
      go_on(going({OneWay{Diagrams::kAll, {Ending::Kind::step, was.wait->go, {}}, {}}}, none),
            going({OneWay{Diagrams::kAll, {Ending::Kind::step, now.wait->go, {}}, {}}}, none),
            occasion(Occasion::Kind::nobody_answers), where, where);
    }
    leave_by_watches(steps, where);
  }

  void leave_by_answers(const Together& steps, Diagrams::Set where, Occasion::Kind kind) {
    const auto answers = [&](StepId step) {
      return arrivals_.one_sides().numbered({{step, true, kind == Occasion::Kind::known}, {}});
    };
    come_to(arrivals_.of(answers(steps.was), answers(steps.now), where), Occasion{kind, steps, {}, Outcome::given},
            where);
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
        go_on(going({way(was)}, {}), going({way(*now)}, {}),
              Occasion{Occasion::Kind::outcome, steps, was, static_cast<Outcome>(outcome)}, shown, shown);
      }
    }
  }

  // Of all that watches look at, told at once, only what is heard first is followed: with the rest the search is twenty
  // times as long.
  Told still_news(const Told& told) const { return told.count() > kMostFollowed ? Told{} : told; }

  void leave_by_watches(const Together& steps, Diagrams::Set where) {
    for (std::size_t i = 0; i < tellings_.size(); ++i) {
      const Diagrams::Set anything = ways_of_.freed(where, tellings_[i]);
      go_on(heard_in(steps.was, i), heard_in(steps.now, i), Occasion{Occasion::Kind::worse, steps, {}, Outcome::given},
            anything, anything);
    }
  }
  const Going& heard_in(StepId step, std::size_t telling) {
    const auto [found, is_new] = heard_.try_emplace(std::uint64_t{step.index} << 32U | telling);
    if (is_new) found->second = going(ways_of_.when_told(step, tellings_[telling]), tellings_[telling]);
    return found->second;
  }

  const SideBySide& sides_;
  const Protocol& protocol_;
  const Space& space_;
  Diagrams& diagrams_;
  Ways ways_of_;
  Arrivals arrivals_;
  Program program_;
  std::vector<Told> tellings_;
  std::unordered_map<std::uint64_t, Going> heard_;  // by step and telling
  std::vector<InStepPair> backs_;                   // where both come back to from another protocol
  InStep result_;
  std::deque<std::size_t> queue_;
  std::vector<bool> queued_;  // by pair
  std::unordered_map<std::uint64_t, std::size_t> pairs_;
  Places partings_, tallies_, put_in_;
  std::unordered_set<Noted, Hash> ways_, apart_;
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
