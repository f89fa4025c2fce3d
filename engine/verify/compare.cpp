#include "verify/compare.hpp"

#include <algorithm>
#include <map>
#include <set>

#include "episode/phrases.hpp"
#include "finding/quoted.hpp"
#include "verify/dose_changes.hpp"
#include "verify/file_changes.hpp"
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
        in_step_(walked_in_step(sides, space_, diagrams_)) {
    for (const Parting& parting : in_step_.partings) add(parting);
    for (const PutIn& put_in : in_step_.put_in) add(put_in);
    for (const OtherTally& tally : in_step_.tallies) add(tally);
    for (const InStepPair& pair : in_step_.pairs) {
      const std::vector<StepChange> changes = step_changes(sides_, space_, diagrams_, pair, doses_);
      if (!changes.empty()) ++steps_changed_;
      for (const StepChange& change : changes) add(change, pair.entered);
    }
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

  std::vector<Difference> in_full() {
    Merged merged;
    for (Found& each : found_) {
      const Named& who = named(each.where, each.within);
      each.difference.too_many = who.too_many;
      each.difference.regions = who.regions;
      each.difference.regions_mmol = who.regions_mmol;
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
  Difference::Place at(const Occasion& occasion) const {
    const std::string step = protocol_[occasion.from.was].name;
    switch (occasion.kind) {
      case Occasion::Kind::begins:
        return {"at the start", ""};
      case Occasion::Kind::answers:
        return {"after", step};
      case Occasion::Kind::known:
        return {"with answers known from before, after", step};
      case Occasion::Kind::early:
        return {"told during the wait of", step};
      case Occasion::Kind::outcome:
        return {quoted(protocol_[occasion.action].name) + " " + std::string(name_of(occasion.outcome)) + " in", step};
      case Occasion::Kind::nobody_answers:
        return {"nobody answers in", step};
      case Occasion::Kind::worse:
        return {"told at any time in", step};
      case Occasion::Kind::after_visit:
        return {"back from the other protocol, after", step};
    }
    return {"in", step};
  }

  std::string words_of(const Ending& ending) const {
    switch (ending.kind) {
      case Ending::Kind::step: {
        const Step& step = protocol_[ending.step];
        return quoted(step.name) + ", " + shown_as(step.urgency, Language::en) + ": " +
               as_written(protocol_, step.headline);
      }
      case Ending::Kind::visit:
        return "walks " + quoted(ending.protocol) + " and comes back to " + quoted(protocol_[ending.step].name);
      case Ending::Kind::hand_over:
        return "goes over to " + quoted(ending.protocol);
      case Ending::Kind::stays:
        return "nothing: the step goes on";
      case Ending::Kind::nothing:
      case Ending::Kind::here:
        break;
    }
    return "no rule";
  }

  Urgency urgency_of(const Ending& ending, StepId from) const {
    return protocol_[ending.kind == Ending::Kind::step ? ending.step : from].urgency;
  }
  bool gives(const Ending& ending) const {
    if (ending.kind == Ending::Kind::stays || ending.kind == Ending::Kind::nothing) return false;
    if (ending.kind != Ending::Kind::step) return true;
    const std::vector<ActionId>& actions = protocol_[ending.step].actions;
    return std::any_of(actions.begin(), actions.end(), [&](ActionId id) {
      const ActionKind kind = protocol_[id].kind;
      return is_call(kind) || kind == ActionKind::by_mouth || kind == ActionKind::glucagon ||
             kind == ActionKind::insulin || kind == ActionKind::fluid;
    });
  }
  Turn turn_of(const Parting& parting) const {
    const Urgency was = urgency_of(parting.was, parting.occasion.from.was);
    const Urgency now = urgency_of(parting.now, parting.occasion.from.now);
    const bool known = parting.was.kind != Ending::Kind::visit && parting.was.kind != Ending::Kind::hand_over &&
                       parting.now.kind != Ending::Kind::visit && parting.now.kind != Ending::Kind::hand_over;
    if (parting.now.kind == Ending::Kind::nothing) return Turn::calmer;
    if (known && now < was) return Turn::calmer;
    if (known && now > was) return Turn::graver;
    if (gives(parting.was) && !gives(parting.now)) return Turn::less;
    return Turn::otherwise;
  }

  struct Found {
    Difference difference;
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

  void add(Difference difference, Diagrams::Set where, Diagrams::Set within) {
    found_.push_back({std::move(difference), where, within});
  }

  int falls_in(const Parting& parting) const {
    const auto was = static_cast<int>(urgency_of(parting.was, parting.occasion.from.was));
    if (parting.now.kind == Ending::Kind::nothing) return was + 1;
    return was - static_cast<int>(urgency_of(parting.now, parting.occasion.from.now));
  }

  void add(const Parting& parting) {
    Difference difference{};
    difference.kind = Kind::leads;
    difference.turn = turn_of(parting);
    difference.at = {at(parting.occasion)};
    difference.was = words_of(parting.was);
    difference.now = words_of(parting.now);
    if (difference.turn == Turn::calmer) difference.falls = falls_in(parting);
    add(std::move(difference), parting.where, parting.within);
  }

  void add(const PutIn& put_in) {
    const bool gone = !sides_.is_now(put_in.step);
    Difference difference{};
    difference.kind = Kind::put_in;
    difference.turn = gone && gives(Ending{Ending::Kind::step, put_in.step, {}}) ? Turn::less : Turn::otherwise;
    difference.at = {at(put_in.occasion)};
    (gone ? difference.was : difference.now) = "first " + words_of(Ending{Ending::Kind::step, put_in.step, {}});
    add(std::move(difference), put_in.where, put_in.within);
  }

  std::string words_of(const std::vector<Tally>& tally) const {
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
    difference.at = {at(tally.occasion)};
    difference.was = words_of(tally.was);
    difference.now = words_of(tally.now);
    add(std::move(difference), tally.where, tally.within);
  }

  void add(const StepChange& change, Diagrams::Set entered) {
    const std::string &was = protocol_[change.at.was].name, &now = protocol_[change.at.now].name;
    Difference difference{};
    difference.kind = change.kind;
    difference.turn = change.turn;
    difference.at = {{was == now ? "in" : "in what is " + quoted(now) + " now,", was}};
    difference.was = change.was;
    difference.now = change.now;
    if (change.turn == Turn::calmer)
      difference.falls =
          static_cast<int>(protocol_[change.at.was].urgency) - static_cast<int>(protocol_[change.at.now].urgency);
    add(std::move(difference), change.where, entered);
  }

  const SideBySide& sides_;
  const Protocol& protocol_;
  const Space& space_;
  const Space* also_;
  Diagrams diagrams_;
  InStep in_step_;
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
