#include "verify/arrivals.hpp"

#include <algorithm>

#include "verify/counterparts.hpp"

namespace rushlight {
namespace {

constexpr std::size_t kMostTurns = 2'000'000;

bool is_same(const Arrival& a, const Arrival& b) {
  return a.kind == b.kind && a.steps == b.steps && a.ends == b.ends && a.was_tally == b.was_tally &&
         a.now_tally == b.now_tally;
}

}  // namespace

std::vector<Arrival> Arrivals::of(OneSides::Next was, OneSides::Next now, Diagrams::Set where) {
  arrivals_.clear();
  among_ = where;
  if (where != Diagrams::kNone) follow({was.to, was.tally, nullptr}, {now.to, now.tally, nullptr}, Diagrams::kAll, 0);
  for (Arrival& each : arrivals_) each.where = diagrams_.both(each.where, where);
  return std::move(arrivals_);
}

const std::vector<Met>& Arrivals::met_by(Diagrams::Set cases, OneSides::Next was, OneSides::Next now,
                                         Diagrams::Set held) {
  const auto [found, is_new] = found_.try_emplace(Start{was, now, held});
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

bool Arrivals::has_passed(const Stand& stand) const {
  const std::uint32_t here = one_sides_.here(stand.at);
  for (const Passed* each = stand.passed; each != nullptr; each = each->before) {
    if (each->here == here) return true;
  }
  return false;
}

// Where the answers of a step itself lead on, the moment begins anew.
Arrivals::Stand Arrivals::led_on(const Stand& stand, OneSides::Next next, const Passed& here) {
  return {next.to, one_sides_.together(stand.tally, next.tally), one_sides_[stand.at].leaves ? nullptr : &here};
}

void Arrivals::follow(const Stand& was, const Stand& now, Diagrams::Set where, std::size_t depth) {
  if (gave_up_) return;
  if (++turns_ > kMostTurns || depth > protocol_.steps.size() + 4) {
    gave_up_ = true;
    return;
  }
  const OneSide &one = one_sides_[was.at], &other = one_sides_[now.at];
  if (one.ending && other.ending) return arrive(was, now, where, depth);
  const bool was_again = !one.ending && has_passed(was), now_again = !other.ending && has_passed(now);
  const bool was_rests = one_sides_.rests_beside(was.at, was_again, now.at, now_again),
             now_rests = one_sides_.rests_beside(now.at, now_again, was.at, was_again);
  const bool only_ask = !one.ending && !other.ending && !was_rests && !now_rests;
  if (only_ask && !one.leaves && !other.leaves && protocol_[one.step].name == protocol_[other.step].name)
    add(Arrival{Arrival::Kind::passes, where, {one.step, other.step}});
  const auto by = [](const OneSide& side, bool rests) {
    return side.ending ? OneSides::By::ending : rests ? OneSides::By::rest : OneSides::By::answers;
  };
  OneSides::Onward &was_onward = one_sides_.onward(was.at, by(one, was_rests)),
                   &now_onward = one_sides_.onward(now.at, by(other, now_rests));
  struct Branch {
    OneSides::Next was, now;
    Diagrams::Set where;
  };
  std::vector<Branch> branches;
  const auto take = [&](std::size_t i, std::size_t j, Diagrams::Set set) {
    const OneSides::Next next_was = one_sides_.next(was.at, was_onward, i),
                         next_now = one_sides_.next(now.at, now_onward, j);
    // Rules that lead to the same are one way from here.
    for (Branch& branch : branches) {
      if (!(branch.was == next_was && branch.now == next_now)) continue;
      branch.where = diagrams_.either(branch.where, set);
      return;
    }
    branches.push_back({next_was, next_now, set});
  };
  for (std::size_t i = 0; i < was_onward.ways->size(); ++i) {
    const Diagrams::Set part = diagrams_.both(where, (*was_onward.ways)[i].when);
    if (!diagrams_.meets(among_, part)) continue;
    const std::vector<std::size_t>& others = beside(was_onward, i, now_onward);
    for (const std::size_t j : others) {
      // The ways of a step leave nothing over: all cases take the only one there is.
      const Diagrams::Set set = others.size() == 1 ? part : diagrams_.both(part, (*now_onward.ways)[j].when);
      if (diagrams_.meets(among_, set)) take(i, j, set);
    }
  }
  const Passed was_here{one_sides_.here(was.at), was.passed}, now_here{one_sides_.here(now.at), now.passed};
  for (const Branch& branch : branches)
    follow(led_on(was, branch.was, was_here), led_on(now, branch.now, now_here), branch.where, depth + 1);
}

const std::vector<std::size_t>& Arrivals::beside(const OneSides::Onward& was, std::size_t way,
                                                 const OneSides::Onward& now) {
  Rows& rows = beside_[std::uint64_t{was.number} << 32U | now.number];
  rows.resize(was.ways->size());
  std::optional<std::vector<std::size_t>>& row = rows[way];
  if (row) return *row;
  row.emplace();
  for (std::size_t j = 0; j < now.ways->size(); ++j) {
    if (diagrams_.meets((*was.ways)[way].when, (*now.ways)[j].when)) row->push_back(j);
  }
  return *row;
}

void Arrivals::arrive(const Stand& was, const Stand& now, Diagrams::Set where, std::size_t depth) {
  const Ending &one = *one_sides_[was.at].ending, &other = *one_sides_[now.at].ending;
  const bool both_steps = one.kind == Ending::Kind::step && other.kind == Ending::Kind::step;
  // What leaves a step that it alone has forgets what it went through to come there.
  const auto leaves = [&](const Stand& stand, StepId step) {
    OneSide side = one_sides_[stand.at];
    side.step = step, side.leaves = true;
    side.ending.reset();
    return Stand{one_sides_.number_of(side), stand.tally, nullptr};
  };
  if (both_steps && !stay_together(sides_, one.step, other.step)) {
    if (is_put_in(sides_, other.step, one.step)) {
      add(Arrival{Arrival::Kind::puts_in, where, {other.step, other.step}});
      return follow(was, leaves(now, other.step), where, depth + 1);
    }
    if (is_put_in(sides_, one.step, other.step)) {
      add(Arrival{Arrival::Kind::puts_in, where, {one.step, one.step}});
      return follow(leaves(was, one.step), now, where, depth + 1);
    }
  }
  const bool together = both_steps ? stay_together(sides_, one.step, other.step)
                                   : one.kind == other.kind && one.protocol == other.protocol;
  const std::uint64_t ends = std::uint64_t{one_sides_.ending(was.at)} << 32U | one_sides_.ending(now.at);
  Arrival arrival{Arrival::Kind::ends, where, {}, one, other, together, ends};
  if (together) arrival.was_tally = was.tally, arrival.now_tally = now.tally;
  add(std::move(arrival));
}

void Arrivals::add(Arrival arrival) {
  for (Arrival& each : arrivals_) {
    if (!is_same(each, arrival)) continue;
    each.where = diagrams_.either(each.where, arrival.where);
    return;
  }
  arrivals_.push_back(std::move(arrival));
}

}  // namespace rushlight
