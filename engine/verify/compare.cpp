#include "verify/compare.hpp"

#include <algorithm>
#include <map>
#include <set>
#include <utility>

#include "finding/quoted.hpp"
#include "verify/dose_changes.hpp"
#include "verify/endings.hpp"
#include "verify/file_changes.hpp"
#include "verify/graph.hpp"
#include "verify/in_step.hpp"
#include "verify/in_words.hpp"
#include "verify/merged.hpp"
#include "verify/step_changes.hpp"

namespace rushlight {
namespace {

using Kind = Difference::Kind;
using Turn = Difference::Turn;

constexpr std::size_t kMostRegions = 200;  // of one difference: a nurse reads a few

bool same_limits(const std::vector<Cases>& one, const std::vector<Cases>& other) {
  return std::equal(one.begin(), one.end(), other.begin(), other.end(),
                    [](const Cases& a, const Cases& b) { return a.limits == b.limits; });
}

constexpr int kNotOnTheWay = 1'000'000;

/// How many steps lie before each, by answers, by what is done and by waiting. A danger may be told anywhere.
std::vector<int> steps_on_the_way(const Protocol& protocol) {
  std::vector<int> steps(protocol.steps.size(), kNotOnTheWay);
  const Graph graph = graph_of(protocol);
  std::vector<StepId> next{protocol.start};
  for (int far = 0; !next.empty(); ++far) {
    for (const StepId step : next) steps[step.index] = far;
    std::vector<StepId> further;
    for (const Way& way : graph.ways) {
      if (steps[way.from.index] == far && steps[way.to.index] > far + 1) {
        steps[way.to.index] = far + 1;
        further.push_back(way.to);
      }
    }
    next = std::move(further);
  }
  return steps;
}

/// Everything that differs but the doses, in one glucose unit. `also`: the other, where it is cut in the same way; then
/// one walk finds what differs in both.
class InUnit {
 public:
  InUnit(const SideBySide& sides, const Space& space, const Space* also)
      : sides_(sides),
        protocol_(sides.both),
        space_(space),
        also_(also),
        diagrams_(space_.sizes()),
        in_step_(walked_in_step(sides, space_, diagrams_)),
        steps_to_(steps_on_the_way(protocol_)) {
    for (const Parting& parting : in_step_.partings)
      add(difference_of(parting), soon(parting.occasion), parting.where, parting.within);
    for (const PutIn& put_in : in_step_.put_in) add(put_in);
    for (const OtherTally& tally : in_step_.tallies) add(tally);
    for (const InStepPair& pair : in_step_.pairs) {
      const std::vector<StepChange> changes = step_changes(sides_, space_, diagrams_, pair, doses_);
      if (!changes.empty()) ++steps_changed_;
      for (const StepChange& change : changes) add(change, pair.entered);
    }
    std::stable_sort(found_.begin(), found_.end(), [](const Found& a, const Found& b) { return a.soon < b.soon; });
  }

  const InStep& in_step() const { return in_step_; }
  std::size_t steps_changed() const { return steps_changed_; }
  const std::vector<DosePair>& doses() const { return doses_; }
  /// How many pairs of what was and what is now.
  std::size_t outcomes() const {
    std::set<WasAndNow> all;
    for (const Found& each : found_) all.insert(was_and_now(each.difference));
    return all.size();
  }

  /// What the answers lead to where a night first parts, and, where that is a question, behind it.
  std::vector<Difference> first_answers() {
    const auto is_answer = [](const Parting& parting) {
      return parting.occasion.kind == Occasion::Kind::begins || parting.occasion.kind == Occasion::Kind::answers;
    };
    Soon first{kNotOnTheWay, 0};
    for (const Parting& each : in_step_.partings) {
      if (is_answer(each)) first = std::min(first, soon(each.occasion));
    }
    std::set<std::uint16_t> behind;  // of the older version
    for (const Parting& each : in_step_.partings) {
      const bool asks = each.was.kind == Ending::Kind::step && protocol_[each.was.step].actions.empty();
      if (is_answer(each) && soon(each.occasion) == first && asks) behind.insert(each.was.step.index);
    }
    std::vector<std::pair<bool, const Parting*>> told;
    for (const Parting& each : in_step_.partings) {
      const bool is_first = first.first < kNotOnTheWay && soon(each.occasion) == first;
      if (is_answer(each) && (is_first || behind.count(each.occasion.from.was.index) > 0))
        told.emplace_back(!is_first, &each);
    }
    // Along the way, and in each place the worst first.
    const auto order = [&](const std::pair<bool, const Parting*>& each) {
      const auto& [is_behind, parting] = each;
      const Together& from = parting->occasion.from;
      return std::tuple(is_behind, from.was.index, turn_of(protocol_, from, parting->was, parting->now),
                        -falls_in(protocol_, from, parting->was, parting->now));
    };
    std::stable_sort(told.begin(), told.end(), [&](const auto& a, const auto& b) { return order(a) < order(b); });
    std::vector<Difference> all;
    const Diagrams::Set fresh = nothing_counted();  // a place that is come to again late in a night is not meant
    for (const auto& [is_behind, parting] : told) {
      const Diagrams::Set where = diagrams_.both(parting->where, fresh);
      if (where == Diagrams::kNone) continue;
      all.push_back(difference_of(*parting));
      name(all.back(), where, diagrams_.both(parting->within, fresh));
    }
    return all;
  }

  Diagrams::Set nothing_counted() {
    Diagrams::Choices none(space_.variables().size());
    for (std::size_t v = 0; v < none.size(); ++v) {
      const Space::Variable& variable = space_.variables()[v];
      if (variable.subject.kind != Subject::Kind::counter) continue;
      none[v].emplace();
      for (const Stretch& stretch : variable.stretches) none[v]->push_back(stretch.value == 0);
    }
    return diagrams_.within(none);
  }

  std::vector<Difference> in_full() {
    Merged merged;
    for (Found& each : found_) {
      name(each.difference, each.where, each.within);
      merged.add(std::move(each.difference));
    }
    return merged.all();
  }

  std::vector<Difference> in_brief() {
    std::map<WasAndNow, std::size_t> places;
    std::vector<Found> merged;
    for (Found& each : found_) {
      const auto [place, is_new] = places.try_emplace(was_and_now(each.difference), merged.size());
      if (is_new) {
        note_soonest(each);
        merged.push_back(std::move(each));
        continue;
      }
      Found& same = merged[place->second];
      join(same.difference, each.difference);
      same.where = diagrams_.either(same.where, each.where);
      same.within = diagrams_.either(same.within, each.within);
    }
    std::vector<Difference> all;
    for (Found& each : merged) {
      name(each.difference, {region_around(space_, diagrams_, each.where, each.within)});
      all.push_back(std::move(each.difference));
    }
    return all;
  }

 private:
  using Soon = Difference::Soon;
  Soon soon(const Occasion& occasion) const {
    if (occasion.kind == Occasion::Kind::begins) return {0, 0};
    return {steps_to_[occasion.from.was.index], static_cast<int>(occasion.kind)};
  }

  struct Found {
    Difference difference;
    Soon soon;
    Diagrams::Set where, within;
  };
  /// Whom a set of cases concerns.
  struct Named {
    std::vector<Cases> regions, regions_mmol;
    bool too_many;
  };

  template <class Thing>
  void name(Thing& thing, const std::vector<Diagrams::Choices>& regions) const {
    thing.regions = cases_of(space_, regions);
    if (also_ != nullptr) thing.regions_mmol = cases_of(*also_, regions);
    if (same_limits(thing.regions, thing.regions_mmol)) thing.regions_mmol.clear();
  }

  void name(Difference& difference, Diagrams::Set where, Diagrams::Set within) {
    const Named& who = named(where, within);
    difference.too_many = who.too_many;
    difference.regions = who.regions;
    difference.regions_mmol = who.regions_mmol;
  }

  void note_soonest(Found& found) {
    Difference::Soonest soonest{found.difference.at.front(), found.soon, {}, {}};
    name(soonest, {plainest_region_of(space_, diagrams_, found.where, found.within)});
    found.difference.soonest = std::move(soonest);
  }

  // The same cases come to something else on many occasions.
  const Named& named(Diagrams::Set where, Diagrams::Set within) {
    const auto [found, is_new] = named_.try_emplace({where, within});
    Named& named = found->second;
    if (!is_new) return named;
    const auto regions = regions_of(space_, diagrams_, where, within, kMostRegions);
    named.too_many = !regions;
    if (regions) name(named, *regions);
    return named;
  }

  void add(Difference difference, Soon soon, Diagrams::Set where, Diagrams::Set within) {
    found_.push_back({std::move(difference), soon, where, within});
  }

  Difference difference_of(const Parting& parting) const {
    Difference difference{};
    difference.kind = Kind::leads;
    const Together& from = parting.occasion.from;
    difference.turn = turn_of(protocol_, from, parting.was, parting.now);
    difference.at = {place_of(protocol_, parting.occasion)};
    difference.was = words_of(protocol_, parting.was);
    difference.now = words_of(protocol_, parting.now);
    if (difference.turn == Turn::calmer) difference.falls = falls_in(protocol_, from, parting.was, parting.now);
    return difference;
  }

  static Ending put_in_as_ending(const PutIn& put_in) { return {Ending::Kind::step, put_in.step, {}}; }
  void add(const PutIn& put_in) {
    const bool gone = !sides_.is_now(put_in.step);
    Difference difference{};
    difference.kind = Kind::put_in;
    difference.turn = gone && gives(protocol_, put_in_as_ending(put_in)) ? Turn::less : Turn::otherwise;
    difference.at = {place_of(protocol_, put_in.occasion)};
    (gone ? difference.was : difference.now) = "first " + words_of(protocol_, put_in_as_ending(put_in));
    add(std::move(difference), soon(put_in.occasion), put_in.where, put_in.within);
  }

  std::string tally_words(const std::vector<Tally>& tally) const {
    std::vector<std::string> words;
    for (const Tally& each : tally) {
      if (each.kind == Tally::Kind::marks) words.push_back("marks " + quoted(protocol_.marks[each.index].name));
      if (each.kind == Tally::Kind::counts) words.push_back("counts " + quoted(protocol_.counters[each.index].name));
      if (each.kind == Tally::Kind::calls)
        words.push_back("opens a call: " + std::string(name_of(static_cast<Contact>(each.index))));
      if (each.kind == Tally::Kind::resets)
        words.push_back("sets " + quoted(protocol_.counters[each.index].name) + " back to 0");
    }
    std::string text;
    for (const std::string& word : words) text += (text.empty() ? "" : ", ") + word;
    return text.empty() ? "counts nothing" : text;
  }

  void add(const OtherTally& tally) {
    Difference difference{};
    difference.kind = Kind::count;
    difference.turn = Turn::otherwise;
    difference.at = {place_of(protocol_, tally.occasion)};
    difference.was = tally_words(tally.was);
    difference.now = tally_words(tally.now);
    add(std::move(difference), soon(tally.occasion), tally.where, tally.within);
  }

  void add(const StepChange& change, Diagrams::Set entered) {
    const std::string &was = protocol_[change.at.was].name, &now = protocol_[change.at.now].name;
    Difference difference{};
    difference.kind = change.kind;
    difference.turn = change.turn;
    difference.at = {{was == now ? "in" : "in what is " + quoted(now) + " now,", was}};
    difference.language = change.language;
    difference.was = change.was;
    difference.now = change.now;
    if (change.turn == Turn::calmer)
      difference.falls =
          static_cast<int>(protocol_[change.at.was].urgency) - static_cast<int>(protocol_[change.at.now].urgency);
    add(std::move(difference), {steps_to_[change.at.was.index], 0}, change.where, entered);
  }

  const SideBySide& sides_;
  const Protocol& protocol_;
  const Space& space_;
  const Space* also_;
  Diagrams diagrams_;
  InStep in_step_;
  std::vector<int> steps_to_;  // by step
  std::vector<DosePair> doses_;
  std::map<std::pair<Diagrams::Set, Diagrams::Set>, Named> named_;
  std::vector<Found> found_;
  std::size_t steps_changed_ = 0;
};

/// Found in one unit, and the same in the other, by the two doses.
using DosesInBoth = std::map<std::pair<std::uint16_t, std::uint16_t>, DoseChange>;

std::optional<DoseChange> dose_change_in(const SideBySide& sides, const DosePair& pair, GlucoseUnit unit,
                                         DosesInBoth& known) {
  const std::pair key{pair.was.index, pair.now.index};
  if (const auto found = known.find(key); found != known.end()) {
    DoseChange change = found->second;
    for (Cases& region : change.regions) region.unit = unit;
    return change;
  }
  std::optional<DoseChange> change = dose_change(sides, pair, unit);
  if (change && change->in_both_units) known.emplace(key, *change);
  return change;
}

std::vector<Difference> dose_differences(const SideBySide& sides, const std::vector<DosePair>& pairs, GlucoseUnit unit,
                                         DosesInBoth& known) {
  const Protocol& protocol = sides.both;
  Merged found;
  for (const DosePair& pair : pairs) {
    std::optional<DoseChange> change = dose_change_in(sides, pair, unit, known);
    if (!change) continue;
    Difference difference{};
    difference.kind = Kind::dose;
    difference.turn = change->turn;
    difference.regions = std::move(change->regions);
    difference.too_many = change->too_many;
    for (const StepId step : pair.used_in) difference.at.push_back({"in", protocol[step].name});
    difference.was = quoted(protocol[pair.was].name) + ": " + change->was;
    difference.now = quoted(protocol[pair.now].name) + ": " + change->now;
    found.add(std::move(difference));
  }
  return found.all();
}

bool same_place(const Difference& one, const Difference& other) {
  return was_and_now(one) == was_and_now(other) && one.at == other.at;
}

// A difference may exist in one unit only, when the two published values of a border lie otherwise.
std::vector<Difference> both_units(std::vector<Difference> in_mg, std::vector<Difference> in_mmol,
                                   bool in_brief = false) {
  for (Difference& each : in_mg) {
    const auto other = std::find_if(in_mmol.begin(), in_mmol.end(), [&](const Difference& difference) {
      return in_brief ? was_and_now(each) == was_and_now(difference) : same_place(each, difference);
    });
    if (other == in_mmol.end()) continue;
    if (!same_limits(each.regions, other->regions)) each.regions_mmol = std::move(other->regions);
    each.too_many = each.too_many || other->too_many;
    if (each.soonest && other->soonest && each.soonest->at == other->soonest->at &&
        !same_limits(each.soonest->regions, other->soonest->regions))
      each.soonest->regions_mmol = std::move(other->soonest->regions);
    if (in_brief) join(each, *other);
    in_mmol.erase(other);
  }
  for (Difference& each : in_mmol) {
    each.regions_mmol = std::move(each.regions);
    each.regions.clear();
    if (each.soonest) each.soonest->regions_mmol = std::exchange(each.soonest->regions, {});
    in_mg.push_back(std::move(each));
  }
  return in_mg;
}

}  // namespace

Differences compare(const Protocol& was, const Protocol& now, Detail detail) {
  Differences result{};
  result.sides = side_by_side(was, now);
  const SideBySide& sides = result.sides;
  const Space mg(sides.both, GlucoseUnit::mg_per_dl), mmol(sides.both, GlucoseUnit::mmol_per_l);
  const bool one_walk = mg.is_cut_as(mmol);
  InUnit in_mg(sides, mg, one_walk ? &mmol : nullptr);
  std::optional<InUnit> in_mmol;
  if (!one_walk) in_mmol.emplace(sides, mmol, nullptr);
  for (const InUnit* each : {&in_mg, in_mmol ? &*in_mmol : nullptr}) {
    if (each == nullptr) continue;
    result.gave_up = result.gave_up || each->in_step().gave_up;
    result.steps = std::max(result.steps, each->in_step().pairs.size());
    result.steps_changed = std::max(result.steps_changed, each->steps_changed());
    result.ways = std::max(result.ways, each->in_step().ways);
    result.ways_changed = std::max(result.ways_changed, each->in_step().ways_apart);
  }
  const auto add = [&](const std::vector<Difference>& found) {
    result.changes.insert(result.changes.end(), found.begin(), found.end());
  };
  result.in_brief =
      detail == Detail::worst_first && std::max(in_mg.outcomes(), in_mmol ? in_mmol->outcomes() : 0) > kMostInFull;
  const auto differences = [&](InUnit& unit) { return result.in_brief ? unit.in_brief() : unit.in_full(); };
  add(in_mmol ? both_units(differences(in_mg), differences(*in_mmol), result.in_brief) : differences(in_mg));
  result.first_answers = in_mmol ? both_units(in_mg.first_answers(), in_mmol->first_answers()) : in_mg.first_answers();
  DosesInBoth known;
  std::vector<Difference> mg_doses = dose_differences(sides, in_mg.doses(), GlucoseUnit::mg_per_dl, known);
  add(both_units(std::move(mg_doses),
                 dose_differences(sides, (in_mmol ? *in_mmol : in_mg).doses(), GlucoseUnit::mmol_per_l, known)));
  add(file_changes(sides, was, now, in_mg.in_step()));
  std::stable_sort(result.changes.begin(), result.changes.end(), [](const Difference& a, const Difference& b) {
    return std::tuple(a.turn, -a.falls, a.kind) < std::tuple(b.turn, -b.falls, b.kind);
  });
  return result;
}

}  // namespace rushlight
