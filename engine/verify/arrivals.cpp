#include "verify/arrivals.hpp"

#include <algorithm>

#include "verify/counterparts.hpp"

namespace rushlight {
namespace {

constexpr std::size_t kMostTurns = 2'000'000;

struct Branch {
  OneSide was, now;
  Diagrams::Set where;
};

bool is_same(const Arrival& a, const Arrival& b) {
  return a.kind == b.kind && a.steps == b.steps && a.was == b.was && a.now == b.now && a.was_tally == b.was_tally &&
         a.now_tally == b.now_tally;
}

}  // namespace

std::vector<Arrival> Arrivals::of(OneSide was, OneSide now, Diagrams::Set where) {
  std::vector<Arrival> arrivals;
  follow(std::move(was), std::move(now), where, 0, arrivals);
  return arrivals;
}

const std::vector<Met>& Arrivals::met_by(Diagrams::Set cases, const OneSide& was, const OneSide& now,
                                         Diagrams::Set held) {
  const auto [found, is_new] = found_.try_emplace(Standings{was, now, held});
  Followed& followed = found->second;
  if (is_new) followed.all = of(was, now, held);
  const auto [known, is_new_here] = followed.met.try_emplace(cases);
  std::vector<Met>& met = known->second;
  if (!is_new_here) return met;
  for (const Arrival& arrival : followed.all) {
    const Diagrams::Set where = diagrams_.both(cases, arrival.where);
    if (where != Diagrams::kNone) met.push_back({&arrival, where});
  }
  return met;
}

void Arrivals::follow(OneSide was, OneSide now, Diagrams::Set where, std::size_t depth,
                      std::vector<Arrival>& arrivals) {
  if (gave_up_) return;
  if (++turns_ > kMostTurns || depth > protocol_.steps.size() + 4) {
    gave_up_ = true;
    return;
  }
  if (was.ending && now.ending) return arrive(std::move(was), std::move(now), where, depth, arrivals);
  const bool was_rests = ways_of_.rests_beside(was, now), now_rests = ways_of_.rests_beside(now, was);
  const bool only_ask = !was.ending && !now.ending && !was_rests && !now_rests;
  if (only_ask && !was.leaves && !now.leaves && protocol_[was.step].name == protocol_[now.step].name)
    add(Arrival{Arrival::Kind::passes, where, {was.step, now.step}}, arrivals);
  static const std::vector<OneWay> kStays{OneWay{Diagrams::kAll, {}, {}}};
  const std::vector<OneWay>& was_ways = was.ending  ? kStays
                                        : was_rests ? ways_of_.ways_at_rest(was)
                                                    : ways_of_.ways_on(was);
  const std::vector<OneWay>& now_ways = now.ending  ? kStays
                                        : now_rests ? ways_of_.ways_at_rest(now)
                                                    : ways_of_.ways_on(now);
  std::vector<Branch> branches;
  const auto take = [&](const OneWay& one, const OneWay& other, Diagrams::Set set) {
    OneSide next_was = was.ending ? was : ways_of_.further(was, one),
            next_now = now.ending ? now : ways_of_.further(now, other);
    // Rules that lead to the same are one way from here.
    for (Branch& branch : branches) {
      if (!(branch.was == next_was && branch.now == next_now)) continue;
      branch.where = diagrams_.either(branch.where, set);
      return;
    }
    branches.push_back({std::move(next_was), std::move(next_now), set});
  };
  for (std::size_t i = 0; i < was_ways.size(); ++i) {
    const Diagrams::Set part = diagrams_.both(where, was_ways[i].when);
    if (part == Diagrams::kNone) continue;
    const std::vector<std::size_t>& others = beside(was_ways, i, now_ways);
    for (const std::size_t j : others) {
      // The ways of a step leave nothing over: all cases take the only one there is.
      const Diagrams::Set set = others.size() == 1 ? part : diagrams_.both(part, now_ways[j].when);
      if (set != Diagrams::kNone) take(was_ways[i], now_ways[j], set);
    }
  }
  for (Branch& branch : branches)
    follow(std::move(branch.was), std::move(branch.now), branch.where, depth + 1, arrivals);
}

const std::vector<std::size_t>& Arrivals::beside(const std::vector<OneWay>& was, std::size_t way,
                                                 const std::vector<OneWay>& now) {
  Rows& rows = beside_[{&was, &now}];
  rows.resize(was.size());
  std::optional<std::vector<std::size_t>>& row = rows[way];
  if (row) return *row;
  row.emplace();
  for (std::size_t j = 0; j < now.size(); ++j) {
    if (diagrams_.meets(was[way].when, now[j].when)) row->push_back(j);
  }
  return *row;
}

void Arrivals::arrive(OneSide was, OneSide now, Diagrams::Set where, std::size_t depth,
                      std::vector<Arrival>& arrivals) {
  const Ending &one = *was.ending, &other = *now.ending;
  const bool both_steps = one.kind == Ending::Kind::step && other.kind == Ending::Kind::step;
  if (both_steps && !stay_together(sides_, one.step, other.step)) {
    if (is_put_in(sides_, other.step, one.step)) {
      add(Arrival{Arrival::Kind::puts_in, where, {other.step, other.step}}, arrivals);
      now.step = other.step, now.leaves = true;
      now.ending.reset();
      return follow(std::move(was), std::move(now), where, depth + 1, arrivals);
    }
    if (is_put_in(sides_, one.step, other.step)) {
      add(Arrival{Arrival::Kind::puts_in, where, {one.step, one.step}}, arrivals);
      was.ending.reset();
      was.leaves = true;
      return follow(std::move(was), std::move(now), where, depth + 1, arrivals);
    }
  }
  const bool together = both_steps ? stay_together(sides_, one.step, other.step)
                                   : one.kind == other.kind && one.protocol == other.protocol;
  Arrival arrival{Arrival::Kind::ends, where, {}, one, other, {}, {}, together};
  if (together) {
    arrival.was_tally = std::move(was.tally);
    arrival.now_tally = std::move(now.tally);
    std::sort(arrival.was_tally.begin(), arrival.was_tally.end());
    std::sort(arrival.now_tally.begin(), arrival.now_tally.end());
  }
  add(std::move(arrival), arrivals);
}

void Arrivals::add(Arrival arrival, std::vector<Arrival>& arrivals) {
  for (Arrival& each : arrivals) {
    if (!is_same(each, arrival)) continue;
    each.where = diagrams_.either(each.where, arrival.where);
    return;
  }
  const auto named = [](const Ending& ending) {
    return Ends{static_cast<int>(ending.kind), ending.step.index, ending.protocol};
  };
  const auto number_in = [](auto& numbers, auto key) {
    return numbers.try_emplace(std::move(key), static_cast<std::uint32_t>(numbers.size())).first->second;
  };
  arrival.ends = number_in(ends_, std::pair(named(arrival.was), named(arrival.now)));
  if (arrival.was_tally != arrival.now_tally)
    arrival.other_tally = number_in(tallies_, std::pair(arrival.was_tally, arrival.now_tally));
  arrivals.push_back(std::move(arrival));
}

}  // namespace rushlight
