#include "verify/one_sides.hpp"

#include <algorithm>

namespace rushlight {

OneSides::OneSides(const SideBySide& sides, Ways& ways) : protocol_(sides.both), ways_(ways) {
  std::map<std::string, std::uint32_t> numbers;
  for (const Step& step : protocol_.steps)
    names_.push_back(numbers.try_emplace(step.name, static_cast<std::uint32_t>(numbers.size())).first->second);
  tally_of({});  // is kNothing
}

OneSides::Id OneSides::number_of(const OneSide& side) {
  const auto [found, is_new] = ids_.try_emplace(side, static_cast<Id>(all_.size()));
  if (!is_new) return found->second;
  Entry entry{side, 0, 0, 0, false, false};
  StepId stands = side.step;
  if (side.ending) {
    const End end{side.ending->kind, side.ending->step.index, side.ending->protocol};
    entry.ending = endings_.try_emplace(end, static_cast<std::uint32_t>(endings_.size() + 1)).first->second;
    stands = side.ending->step;
  } else {
    entry.here =
        heres_.try_emplace(Place{side.step.index, side.news}, static_cast<std::uint32_t>(heres_.size())).first->second;
    entry.unseen = ways_.is_passed_unseen(side);
    entry.at_rest = ways_.is_at_rest(side);
  }
  entry.name = names_[stands.index];
  all_.push_back(std::move(entry));
  return found->second;
}

OneSides::Onward& OneSides::onward(Id id, By by) {
  static const std::vector<OneWay> kStays{OneWay{Diagrams::kAll, {}, {}}};
  Entry& entry = all_[id];
  std::optional<Onward>& onward = by == By::ending ? entry.ended
                                  : by == By::rest ? entry.at_its_rest
                                                   : entry.by_answers;
  if (onward) return *onward;
  const std::vector<OneWay>& ways = by == By::ending ? kStays
                                    : by == By::rest ? ways_.ways_at_rest(entry.side)
                                                     : ways_.ways_on(entry.side);
  const std::uint32_t number = lists_.try_emplace(&ways, static_cast<std::uint32_t>(lists_.size())).first->second;
  onward.emplace(Onward{number, &ways, std::vector<std::optional<Next>>(ways.size())});
  if (by == By::ending) onward->next.front() = Next{id, kNothing};
  return *onward;
}

OneSides::Next OneSides::next(Id id, Onward& onward, std::size_t way) {
  std::optional<Next>& next = onward.next[way];
  if (!next) next = numbered(ways_.further(all_[id].side, (*onward.ways)[way]));
  return *next;
}

bool OneSides::rests_beside(Id id, bool again, Id other_id, bool other_again) const {
  const Entry &standing = all_[id], &other = all_[other_id];
  if (standing.side.ending || standing.side.leaves) return false;
  if (rests(standing, again)) return true;
  const bool other_rests =
      other.side.ending ? other.side.ending->kind == Ending::Kind::step : rests(other, other_again);
  return other_rests && other.name == standing.name && !standing.unseen;
}

OneSides::TallyId OneSides::tally_of(std::vector<Tally> tally) {
  std::sort(tally.begin(), tally.end());
  const auto [found, is_new] = tally_ids_.try_emplace(std::move(tally), static_cast<TallyId>(tallies_.size()));
  if (!is_new) return found->second;
  tallies_.push_back(found->first);
  calls_.push_back(0);
  for (const Tally& each : tallies_.back()) {
    if (each.kind == Tally::Kind::calls) calls_.back() = static_cast<std::uint8_t>(calls_.back() | each.index);
  }
  return found->second;
}

OneSides::TallyId OneSides::without_calls(TallyId id) {
  if (calls_[id] == 0) return id;
  std::vector<Tally> rest;
  for (const Tally& each : tallies_[id]) {
    if (each.kind != Tally::Kind::calls) rest.push_back(each);
  }
  return tally_of(std::move(rest));
}

OneSides::TallyId OneSides::together(TallyId some, TallyId more) {
  if (some == kNothing) return more;
  if (more == kNothing) return some;
  const auto [found, is_new] = sums_.try_emplace(std::uint64_t{some} << 32U | more, kNothing);
  if (!is_new) return found->second;
  std::vector<Tally> both = tallies_[some];
  both.insert(both.end(), tallies_[more].begin(), tallies_[more].end());
  return found->second = tally_of(std::move(both));
}

}  // namespace rushlight
