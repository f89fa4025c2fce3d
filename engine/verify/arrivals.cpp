#include "verify/arrivals.hpp"

#include <algorithm>

#include "verify/counterparts.hpp"

namespace rushlight {
namespace {

constexpr std::size_t kMostTurns = 2'000'000;

struct CallsOfBoth {
  unsigned was, now, was_ends, now_ends;  // on the way, and where it ends
  std::uint8_t only_was() const { return without_a_lone_mark(was & ~was_ends & ~(now | now_ends)); }
  std::uint8_t only_now() const { return without_a_lone_mark(now & ~now_ends & ~(was | was_ends)); }
  static std::uint8_t without_a_lone_mark(unsigned calls) {
    return static_cast<std::uint8_t>((calls & call_bit(Contact::clinic)) != 0 ? calls : calls & ~unsigned{kClinicNow});
  }
};

bool is_same(const Arrival& a, const Arrival& b) {
  return a.kind == b.kind && a.steps == b.steps && a.ends == b.ends && a.was_tally == b.was_tally &&
         a.now_tally == b.now_tally;
}

}  // namespace

std::vector<Arrival> Arrivals::of(OneSides::Next was, OneSides::Next now, Diagrams::Set where) {
  arrivals_.clear();
  if (where != Diagrams::kNone)
    follow({was.to, was.tally, where, nullptr}, {now.to, now.tally, Diagrams::kAll, nullptr}, 0);
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
Arrivals::Stand Arrivals::led_on(const Stand& stand, const Onto& onto, const Passed& here) {
  return {onto.next.to, one_sides_.together(stand.tally, onto.next.tally), onto.cases,
          one_sides_[stand.at].leaves ? nullptr : &here};
}

void Arrivals::add_branch(std::size_t first, const Branch& added) {
  for (std::size_t i = first; i < branches_.size(); ++i) {
    Branch& branch = branches_[i];
    if (!(branch.was.next == added.was.next && branch.now.next == added.now.next)) continue;
    if (branch.was.cases == added.was.cases) {
      branch.now.cases = diagrams_.either(branch.now.cases, added.now.cases);
    } else if (branch.now.cases == added.now.cases) {
      branch.was.cases = diagrams_.either(branch.was.cases, added.was.cases);
    } else {
      branch.was.cases = diagrams_.either(diagrams_.both(branch.was.cases, branch.now.cases),
                                          diagrams_.both(added.was.cases, added.now.cases));
      branch.now.cases = Diagrams::kAll;
    }
    return;
  }
  branches_.push_back(added);
}

void Arrivals::follow(const Stand& was, const Stand& now, std::size_t depth) {
  if (gave_up_) return;
  if (++turns_ > kMostTurns || depth > protocol_.steps.size() + 4) {
    gave_up_ = true;
    return;
  }
  const OneSide &one = one_sides_[was.at], &other = one_sides_[now.at];
  if (one.ending && other.ending) return arrive(was, now, depth);
  const bool was_again = !one.ending && has_passed(was), now_again = !other.ending && has_passed(now);
  const bool was_rests = one_sides_.rests_beside(was.at, was_again, now.at, now_again),
             now_rests = one_sides_.rests_beside(now.at, now_again, was.at, was_again);
  const bool only_ask = !one.ending && !other.ending && !was_rests && !now_rests;
  if (only_ask && !one.leaves && !other.leaves && protocol_[one.step].name == protocol_[other.step].name)
    add(Arrival{Arrival::Kind::passes, diagrams_.both(was.cases, now.cases), {one.step, other.step}});
  const auto by = [](const OneSide& side, bool rests) {
    return side.ending ? OneSides::By::ending : rests ? OneSides::By::rest : OneSides::By::answers;
  };
  OneSides::Onward &was_onward = one_sides_.onward(was.at, by(one, was_rests)),
                   &now_onward = one_sides_.onward(now.at, by(other, now_rests));
  const Parts some = parts_of(was.cases, was_onward), of_them = parts_of(now.cases, now_onward);
  Rows& rows = beside_[std::uint64_t{was_onward.number} << 32U | now_onward.number];
  rows.resize(was_onward.ways->size());
  const std::size_t first = branches_.size();
  for (std::size_t i = some.first; i < some.end; ++i) {
    const Part one_part = parts_[i];
    if (!diagrams_.meets(one_part.cases, now.cases)) continue;
    const std::vector<bool>& others = beside(rows, was_onward, one_part.way, now_onward);
    for (std::size_t j = of_them.first; j < of_them.end; ++j) {
      const Part other_part = parts_[j];
      if (!others[other_part.way] || !diagrams_.meets(one_part.cases, other_part.cases)) continue;
      // Rules that lead to the same are one way from here.
      add_branch(first, {{one_sides_.next(was.at, was_onward, one_part.way), one_part.cases},
                         {one_sides_.next(now.at, now_onward, other_part.way), other_part.cases}});
    }
  }
  const Passed was_here{one_sides_.here(was.at), was.passed}, now_here{one_sides_.here(now.at), now.passed};
  for (std::size_t i = first, end = branches_.size(); i < end; ++i) {
    const Branch branch = branches_[i];
    follow(led_on(was, branch.was, was_here), led_on(now, branch.now, now_here), depth + 1);
  }
  branches_.resize(first);
}

Arrivals::Parts Arrivals::parts_of(Diagrams::Set cases, const OneSides::Onward& onward) {
  const auto [found, is_new] = parts_known_.try_emplace(std::uint64_t{cases} << 32U | onward.number);
  if (!is_new) return found->second;
  Parts& parts = found->second;
  parts.first = parts_.size();
  for (std::size_t i = 0; i < onward.ways->size(); ++i) {
    const Diagrams::Set part = diagrams_.both(cases, (*onward.ways)[i].when);
    if (part != Diagrams::kNone) parts_.push_back({i, part});
  }
  parts.end = parts_.size();
  return parts;
}

const std::vector<bool>& Arrivals::beside(Rows& rows, const OneSides::Onward& was, std::size_t way,
                                          const OneSides::Onward& now) {
  std::vector<bool>& row = rows[way];
  if (!row.empty()) return row;
  for (const OneWay& other : *now.ways) row.push_back(diagrams_.meets((*was.ways)[way].when, other.when));
  return row;
}

void Arrivals::arrive(const Stand& was, const Stand& now, std::size_t depth) {
  const Diagrams::Set where = diagrams_.both(was.cases, now.cases);
  const Ending &one = *one_sides_[was.at].ending, &other = *one_sides_[now.at].ending;
  const bool both_steps = one.kind == Ending::Kind::step && other.kind == Ending::Kind::step;
  // What leaves a step that it alone has forgets what it went through to come there.
  const auto leaves = [&](const Stand& stand, StepId step) {
    OneSide side = one_sides_[stand.at];
    side.step = step, side.leaves = true;
    side.ending.reset();
    return Stand{one_sides_.number_of(side), stand.tally, stand.cases, nullptr};
  };
  if (both_steps && !stay_together(sides_, one.step, other.step)) {
    if (is_put_in(sides_, other.step, one.step)) {
      add(Arrival{Arrival::Kind::puts_in, where, {other.step, other.step}});
      return follow(was, leaves(now, other.step), depth + 1);
    }
    if (is_put_in(sides_, one.step, other.step)) {
      add(Arrival{Arrival::Kind::puts_in, where, {one.step, one.step}});
      return follow(leaves(was, one.step), now, depth + 1);
    }
  }
  const bool together = both_steps ? stay_together(sides_, one.step, other.step)
                                   : one.kind == other.kind && one.protocol == other.protocol;
  Arrival arrival{Arrival::Kind::ends, where, {}, one, other, together, 0};
  // Whom both call, on the way or where they end, is the same.
  const CallsOfBoth calls{one_sides_.calls(was.tally), one_sides_.calls(now.tally), calls_in(one), calls_in(other)};
  arrival.was.calls = calls.only_was(), arrival.now.calls = calls.only_now();
  const auto number = [&](const Stand& stand, const Ending& end) {
    return std::uint64_t{one_sides_.ending(stand.at)} << 4U | end.calls;
  };
  arrival.ends = number(was, arrival.was) << 32U | number(now, arrival.now);
  if (together) {
    arrival.was_tally = one_sides_.without_calls(was.tally);
    arrival.now_tally = one_sides_.without_calls(now.tally);
  }
  add(std::move(arrival));
}

std::uint8_t Arrivals::calls_in(const Ending& ending) const {
  unsigned calls = 0;
  if (ending.kind != Ending::Kind::step) return 0;
  const Step& step = protocol_[ending.step];
  for (const ActionId id : step.actions) {
    const Action& action = protocol_[id];
    if (!is_call(action.kind) || !action.call || !action.when.empty()) continue;
    calls |= call_bit(action.call->contact);
    if (step.urgency >= Urgency::clinic_now) calls |= kClinicNow;
  }
  return static_cast<std::uint8_t>(calls);
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
