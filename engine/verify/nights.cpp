#include "verify/nights.hpp"

#include <algorithm>

namespace rushlight {

Nights::Nights(const Space& space, Diagrams& diagrams, Program& program, StepId start, std::vector<bool> stops,
               bool timed, std::size_t most)
    : diagrams_(diagrams),
      program_(program),
      stops_(std::move(stops)),
      timed_(timed),
      most_(most),
      place_of_(space.protocol().steps.size(), 0),
      latest_(space.protocol().steps.size()) {
  order_steps(start);
  follow(start);
}

// A step's turn comes after those that lead to it, as far as that can be: what comes together is followed together.
void Nights::order_steps(StepId start) {
  std::vector<bool> seen(place_of_.size(), false);
  std::vector<std::pair<StepId, std::size_t>> stack{{start, 0}};
  seen[start.index] = true;
  std::size_t turn = place_of_.size();
  while (!stack.empty()) {
    const StepId step = stack.back().first;
    const std::vector<Leading>& moves = program_.moves_of(step);
    if (stack.back().second == moves.size()) {
      place_of_[step.index] = --turn;
      stack.pop_back();
      continue;
    }
    const std::optional<StepId> to = moves[stack.back().second++].to;
    if (!to || stops_[to->index] || seen[to->index]) continue;
    seen[to->index] = true;
    stack.emplace_back(*to, 0);
  }
}

// What has not been there yet, or only earlier; it is there from now on.
Diagrams::Set Nights::news(StepId step, Duration at, Diagrams::Set set) {
  std::map<Duration, Diagrams::Set>& latest = latest_[step.index];
  if (!timed_) at = Duration{0};
  for (auto later = latest.lower_bound(at); later != latest.end(); ++later) set = diagrams_.without(set, later->second);
  if (set == Diagrams::kNone) return set;
  for (auto earlier = latest.begin(); earlier != latest.end() && earlier->first < at;) {
    earlier->second = diagrams_.without(earlier->second, set);
    earlier = earlier->second == Diagrams::kNone ? latest.erase(earlier) : std::next(earlier);
  }
  Diagrams::Set& now = latest[at];
  now = diagrams_.either(now, set);
  return set;
}

void Nights::enter(StepId step, Duration at, Pending pending) {
  pending.set = news(step, at, pending.set);
  if (pending.set == Diagrams::kNone) return;
  if (visits_.size() == most_) {
    gave_up_ = true;
    return;
  }
  const std::size_t visit = visits_.size();
  visits_.push_back(Visit{step, at, pending.set, std::move(pending.from)});
  const std::vector<Leading>& moves = program_.moves_of(step);
  for (std::size_t m = 0; m < moves.size(); ++m) {
    const Diagrams::Set set = program_.after(visits_[visit].set, step, moves[m]);
    if (set == Diagrams::kNone) continue;
    const Duration then = timed_ ? at + moves[m].takes : at;  // what comes together is followed together
    if (!moves[m].to || stops_[moves[m].to->index]) {
      ends_.push_back(End{visit, m, then});
      continue;
    }
    Pending& next = pending_[{place_of_[moves[m].to->index], moves[m].to->index}][then];
    next.set = diagrams_.either(next.set, set);
    next.from.push_back(From{visit, m});
  }
}

void Nights::follow(StepId start) {
  pending_[{place_of_[start.index], start.index}][Duration{0}] = Pending{program_.at_start_of(start), {}};
  while (!pending_.empty() && !gave_up_) {
    const auto first = pending_.begin();
    const StepId step{first->first.second};
    std::map<Duration, Pending> at_once = std::move(first->second);
    pending_.erase(first);
    for (auto each = at_once.rbegin(); each != at_once.rend() && !gave_up_; ++each)
      enter(step, each->first, std::move(each->second));
  }
}

Diagrams::Set Nights::reached(StepId step) const {
  Diagrams::Set all = Diagrams::kNone;
  for (const auto& [at, set] : latest_[step.index]) all = diagrams_.either(all, set);
  return all;
}

// From everything that is reached, what cannot go on within the rest is taken away until nothing changes.
std::vector<Diagrams::Set> Nights::going_round() const {
  const std::size_t steps = latest_.size();
  std::vector<Diagrams::Set> rest(steps);
  std::vector<std::vector<std::uint16_t>> leads_here(steps);
  std::vector<std::uint16_t> again;
  std::vector<bool> waiting(steps, false);
  for (std::uint16_t s = 0; s < steps; ++s) {
    rest[s] = reached(StepId{s});
    if (rest[s] == Diagrams::kNone) continue;
    again.push_back(s);
    waiting[s] = true;
    for (const Leading& move : program_.moves_of(StepId{s})) {
      if (move.to && !stops_[move.to->index]) leads_here[move.to->index].push_back(s);
    }
  }
  while (!again.empty()) {
    const std::uint16_t s = again.back();
    again.pop_back();
    waiting[s] = false;
    Diagrams::Set goes_on = Diagrams::kNone;
    for (const Leading& move : program_.moves_of(StepId{s})) {
      if (!move.to || stops_[move.to->index] || rest[move.to->index] == Diagrams::kNone) continue;
      goes_on = diagrams_.either(goes_on, program_.before(rest[move.to->index], StepId{s}, move));
    }
    const Diagrams::Set left = diagrams_.both(rest[s], goes_on);
    if (left == rest[s]) continue;
    rest[s] = left;
    for (const std::uint16_t from : leads_here[s]) {
      if (rest[from] == Diagrams::kNone || waiting[from]) continue;
      waiting[from] = true;
      again.push_back(from);
    }
  }
  return rest;
}

std::vector<Nights::Stage> Nights::night_to(std::size_t visit, Diagrams::Set within) const {
  std::vector<Stage> night;
  Diagrams::Set wanted = diagrams_.both(within, visits_[visit].set);
  std::optional<std::size_t> move;
  while (wanted != Diagrams::kNone) {
    const Diagrams::Values entered = diagrams_.one_of(wanted);
    night.push_back(Stage{visit, entered, move});
    if (visits_[visit].from.empty()) break;
    const Diagrams::Set here = diagrams_.only(entered);
    wanted = Diagrams::kNone;
    for (const From& from : visits_[visit].from) {
      const Visit& before = visits_[from.visit];
      const Leading& led = program_.moves_of(before.step)[from.move];
      // `here` names a value for what is not remembered too; the move says nothing of that.
      const Diagrams::Set some = diagrams_.freed(here, led.forgotten);
      wanted = diagrams_.both(before.set, program_.before(some, before.step, led));
      if (wanted == Diagrams::kNone) continue;
      visit = from.visit;
      move = from.move;
      break;
    }
  }
  std::reverse(night.begin(), night.end());
  return night;
}

std::vector<Nights::Stage> Nights::night_to(const End& end) const {
  const Visit& visit = visits_[end.visit];
  const Leading& move = program_.moves_of(visit.step)[end.move];
  std::vector<Stage> night = night_to(end.visit, program_.before(Diagrams::kAll, visit.step, move));
  if (!night.empty()) night.back().move = end.move;
  return night;
}

}  // namespace rushlight
