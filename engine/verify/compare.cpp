#include "verify/compare.hpp"

#include <algorithm>
#include <map>
#include <set>
#include <tuple>
#include <utility>

#include "finding/quoted.hpp"
#include "verify/dose_changes.hpp"
#include "verify/file_changes.hpp"
#include "verify/in_unit.hpp"
#include "verify/merged.hpp"

namespace rushlight {
namespace {

using Kind = Difference::Kind;
using Turn = Difference::Turn;

constexpr std::size_t kMostInBrief = 3, kMostOfATurn = 2;

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

std::vector<Difference> both_units(std::vector<Difference> in_mg, std::vector<Difference> in_mmol, bool in_brief);

/// Found in one unit or in both; the examples of the first unit stand for those of the other.
std::vector<Difference> dose_differences(const SideBySide& sides, const std::vector<DosePair>& pairs,
                                         const std::vector<DosePair>& pairs_mmol) {
  const Protocol& protocol = sides.both;
  DosesInBoth known;
  const auto difference_of = [&](const DosePair& pair, GlucoseUnit unit) -> std::optional<Difference> {
    std::optional<DoseChange> change = dose_change_in(sides, pair, unit, known);
    if (!change) return std::nullopt;
    Difference difference{};
    difference.kind = Kind::dose;
    difference.turn = change->turn;
    difference.regions = std::move(change->regions);
    difference.too_many = change->too_many;
    for (const StepId step : pair.used_in) {
      difference.at.push_back({"in", protocol[step].name});
      if (difference.turn == Turn::less)
        difference.loss.urgency = std::max(difference.loss.urgency, static_cast<int>(protocol[step].urgency));
    }
    if (pair.used_in.empty()) difference.at.push_back({"how much to drink in an hour", ""});
    difference.was = quoted(protocol[pair.was].name) + ": " + change->was;
    difference.now = quoted(protocol[pair.now].name) + ": " + change->now;
    return difference;
  };
  Merged in_mg, in_mmol;
  for (const DosePair& pair : pairs) {
    std::optional<Difference> mg = difference_of(pair, GlucoseUnit::mg_per_dl);
    const auto other = std::find_if(pairs_mmol.begin(), pairs_mmol.end(),
                                    [&](const DosePair& each) { return each.was == pair.was && each.now == pair.now; });
    std::optional<Difference> mmol;
    if (other != pairs_mmol.end()) mmol = difference_of(*other, GlucoseUnit::mmol_per_l);
    if (mg && mmol && mg->turn == mmol->turn) mmol->was = mg->was, mmol->now = mg->now;
    if (mg) in_mg.add(std::move(*mg));
    if (mmol) in_mmol.add(std::move(*mmol));
  }
  for (const DosePair& pair : pairs_mmol) {
    const auto is_this = [&](const DosePair& each) { return each.was == pair.was && each.now == pair.now; };
    if (std::any_of(pairs.begin(), pairs.end(), is_this)) continue;
    if (std::optional<Difference> mmol = difference_of(pair, GlucoseUnit::mmol_per_l)) in_mmol.add(std::move(*mmol));
  }
  return both_units(in_mg.all(), in_mmol.all(), false);
}

/// The goal of drinks is an amount too, which no step gives.
std::vector<DosePair> with_goals(const Protocol& was, const Protocol& now, const SideBySide& sides,
                                 std::vector<DosePair> pairs) {
  if (was.parts.empty() || now.parts.empty()) return pairs;
  const std::optional<DoseId>&one = was.parts.front().hourly_fluid, &other = now.parts.front().hourly_fluid;
  if (!one || !other) return pairs;
  const DosePair goals{*one, DoseId{static_cast<std::uint16_t>(sides.now_doses + other->index)}, {}};
  const auto is_known = [&](const DosePair& pair) { return pair.was == goals.was && pair.now == goals.now; };
  if (std::none_of(pairs.begin(), pairs.end(), is_known)) pairs.push_back(goals);
  return pairs;
}

bool same_place(const Difference& one, const Difference& other) {
  return was_and_now(one) == was_and_now(other) && one.at == other.at;
}

// A difference may exist in one unit only, when the two published values of a border lie otherwise.
std::vector<Difference> both_units(std::vector<Difference> in_mg, std::vector<Difference> in_mmol, bool in_brief) {
  for (Difference& each : in_mg) {
    const auto other = std::find_if(in_mmol.begin(), in_mmol.end(), [&](const Difference& difference) {
      return in_brief ? was_and_now(each) == was_and_now(difference) : same_place(each, difference);
    });
    if (other == in_mmol.end()) continue;
    if (!same_limits(each.regions, other->regions)) each.regions_mmol = std::move(other->regions);
    each.too_many = each.too_many || other->too_many;
    if (in_brief) join(each, *other);
    in_mmol.erase(other);
  }
  for (Difference& each : in_mmol) {
    each.regions_mmol = std::move(each.regions);
    each.regions.clear();
    in_mg.push_back(std::move(each));
  }
  return in_mg;
}

void add_unit(Whom& who, Whom in_mmol) {
  if (!same_limits(who.regions, in_mmol.regions)) who.regions_mmol = std::move(in_mmol.regions);
}

/// Of what is told in brief: what comes to one and the same, and what stood in the way of one and the same step, is
/// told once.
using Told = std::tuple<Turn, Kind, std::string, std::string>;
Told told_with(const Difference& difference) {
  const bool leads = difference.kind == Kind::leads;
  return {difference.turn, difference.kind, difference.was, leads ? "" : difference.now};
}

/// The worst that is told in brief. An amount is no more one of many than a step that is left out.
std::vector<std::size_t> worst_of(const std::vector<Difference>& changes) {
  std::vector<std::size_t> worst;
  std::map<Turn, std::size_t> of_turn;
  std::set<Told> told;
  for (const bool doses : {true, false}) {
    for (std::size_t i = 0; i < changes.size() && worst.size() < kMostInBrief; ++i) {
      const Difference& each = changes[i];
      if (each.kind == Kind::number || (each.kind == Kind::dose && each.turn == Turn::less) != doses) continue;
      if (of_turn[each.turn] == kMostOfATurn || !told.insert(told_with(each)).second) continue;
      ++of_turn[each.turn];
      worst.push_back(i);
    }
  }
  return worst;
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
  const bool is_much = in_mg.is_much() || (in_mmol && in_mmol->is_much());
  result.in_brief = detail == Detail::worst_first && is_much;
  result.by_place = detail == Detail::every_place && is_much;
  const auto differences = [&](InUnit& unit) {
    return result.in_brief ? unit.in_brief() : result.by_place ? unit.by_place() : unit.in_full();
  };
  add(in_mmol ? both_units(differences(in_mg), differences(*in_mmol), result.in_brief) : differences(in_mg));
  result.first_answers =
      in_mmol ? both_units(in_mg.first_answers(), in_mmol->first_answers(), false) : in_mg.first_answers();
  add(dose_differences(sides, with_goals(was, now, sides, in_mg.doses()),
                       with_goals(was, now, sides, (in_mmol ? *in_mmol : in_mg).doses())));
  add(file_changes(sides, was, now, in_mg.in_step()));
  std::stable_sort(result.changes.begin(), result.changes.end(), [](const Difference& a, const Difference& b) {
    const auto no_emergency = [](const Difference& each) {
      return each.turn != Turn::calmer || each.loss.urgency < static_cast<int>(Urgency::emergency);
    };
    return std::tuple(a.turn, no_emergency(a), -a.falls, b.loss, a.kind) <
           std::tuple(b.turn, no_emergency(b), -b.falls, a.loss, b.kind);
  });
  if (!result.in_brief) return result;
  result.common = in_mg.around_all();
  if (in_mmol) add_unit(result.common, in_mmol->around_all());
  for (const std::size_t i : worst_of(result.changes)) {
    Difference& each = result.changes[i];
    each.is_told = true;
    each.soonest = in_mg.soonest_of(each);
    std::optional<Difference::Soonest> other = in_mmol ? in_mmol->soonest_of(each) : std::nullopt;
    if (!other) continue;
    if (!each.soonest) each.soonest = Difference::Soonest{other->at, {}};
    if (each.soonest->at == other->at) add_unit(each.soonest->who, std::move(other->who));
  }
  return result;
}

}  // namespace rushlight
