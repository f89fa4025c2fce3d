#include "verify/distances.hpp"

#include <algorithm>
#include <queue>
#include <utility>

#include "verify/dangers.hpp"

namespace rushlight {
namespace {

// The greatest number that any band of the threshold asks for.
int most_of(const Threshold& threshold) {
  int most = 0;
  for (const Band& band : threshold.bands) {
    if (const int* number = std::get_if<int>(&band.value)) most = std::max(most, *number);
  }
  return most;
}

bool counts(const Protocol& protocol, const Step& step, CounterId counter) {
  return (step.counts && *step.counts == counter) ||
         std::any_of(step.actions.begin(), step.actions.end(),
                     [&](ActionId action) { return protocol[action].counts && *protocol[action].counts == counter; });
}

}  // namespace

void Distances::add(StepId from, StepId to, std::vector<Need> needs) {
  int cost = kStepFurther;
  for (const Need& need : needs) cost += need.number * kStepFurther;
  into_[to.index].push_back(Edge{from.index, cost, std::move(needs)});
}

Distances::Distances(const Protocol& protocol, StepId target)
    : into_(protocol.steps.size()),
      far_(protocol.steps.size(), kNoWay),
      needs_on_(protocol.steps.size()),
      protocol_(protocol),
      counting_(protocol.counters.size()) {
  for (std::size_t i = 0; i < protocol.steps.size(); ++i) {
    const Step& step = protocol.steps[i];
    const StepId from{static_cast<std::uint16_t>(i)};
    if (step.ends && !step.ends_visit && step.urgency == Urgency::emergency) continue;
    for (const Rule& rule : step.rules) {
      std::vector<Need> needs;
      for (const Condition& condition : rule.when) {
        if (const auto* test = std::get_if<CountedAtLeast>(&condition.test))
          needs.push_back({test->counter, most_of(protocol[test->limit])});
      }
      add(from, rule.enters.value_or(rule.go), needs);
      if (!rule.enters || !rule.hands_over_to.empty()) continue;
      // The visited protocol comes back from each of its ends.
      for (std::size_t end = 0; end < protocol.steps.size(); ++end) {
        const StepId last{static_cast<std::uint16_t>(end)};
        const bool comes_back = protocol.steps[end].ends || protocol.steps[end].ends_visit;
        if (comes_back && protocol.part_of(last) == protocol.part_of(*rule.enters)) add(last, rule.go, {});
      }
    }
    for (const ActionId action : step.actions) {
      for (const auto& outcome : protocol[action].on) {
        if (outcome && outcome->go) add(from, *outcome->go, {});
      }
    }
    if (step.wait) add(from, step.wait->go, {});
    for (std::size_t watch = 0; watch < protocol.watch.size(); ++watch) {
      const WatchId id{static_cast<std::uint16_t>(watch)};
      if (!handles(step, id)) add(from, protocol[id].go, {});
    }
  }
  using Reached = std::pair<int, std::uint16_t>;
  std::priority_queue<Reached, std::vector<Reached>, std::greater<>> queue;
  far_[target.index] = 0;
  queue.emplace(0, target.index);
  while (!queue.empty()) {
    const auto [far, to] = queue.top();
    queue.pop();
    if (far > far_[to]) continue;
    for (const Edge& edge : into_[to]) {
      if (far + edge.cost >= far_[edge.from]) continue;
      far_[edge.from] = far + edge.cost;
      needs_on_[edge.from] = needs_on_[to];
      needs_on_[edge.from].insert(needs_on_[edge.from].end(), edge.needs.begin(), edge.needs.end());
      queue.emplace(far_[edge.from], edge.from);
    }
  }
  plain_ = entering({{target, 0}});
  plain_[target.index] = 0;
}

Distances::ByStep Distances::entering(const std::vector<std::pair<StepId, int>>& steps) const {
  using Reached = std::pair<int, std::uint16_t>;
  std::priority_queue<Reached, std::vector<Reached>, std::greater<>> queue;
  ByStep far(into_.size(), kNoWay);
  const auto come_into = [&](std::uint16_t to, int on) {
    for (const Edge& edge : into_[to]) {
      if (on + kStepFurther >= far[edge.from]) continue;
      far[edge.from] = on + kStepFurther;
      queue.emplace(far[edge.from], edge.from);
    }
  };
  for (const auto& [step, on] : steps) come_into(step.index, on);
  while (!queue.empty()) {
    const auto [on, to] = queue.top();
    queue.pop();
    if (on == far[to]) come_into(to, on);
  }
  return far;
}

const Distances::Counting& Distances::counting(CounterId counter) const {
  std::optional<Counting>& found = counting_[counter.index];
  if (found) return *found;
  std::vector<std::pair<StepId, int>> on_to_target, on_to_none;
  for (std::size_t i = 0; i < protocol_.steps.size(); ++i) {
    const StepId step{static_cast<std::uint16_t>(i)};
    // What the target counts is counted too late.
    if (!counts(protocol_, protocol_.steps[i], counter) || plain_[i] >= kNoWay || plain_[i] == 0) continue;
    on_to_target.emplace_back(step, plain_[i]);
    on_to_none.emplace_back(step, 0);
  }
  const ByStep again = entering(on_to_none);
  int round = kNoWay;
  for (const auto& [step, none] : on_to_none) round = std::min(round, again[step.index]);
  return found.emplace(Counting{entering(on_to_target), round});
}

int Distances::from(StepId step, const Episode& episode) const {
  int far = far_[step.index];
  if (far >= kNoWay) return kNoWay;
  for (const Need& need : needs_on_[step.index])
    far -= std::min(need.number, episode.counted[need.counter.index]) * kStepFurther;
  for (const Need& need : needs_on_[step.index]) {
    const int missing = need.number - episode.counted[need.counter.index];
    if (missing < 1) continue;
    const Counting& counts = counting(need.counter);
    if (counts.on[step.index] >= kNoWay) continue;
    const int rounds = missing == 1 || counts.round >= kNoWay ? 0 : (missing - 1) * counts.round;
    far = std::max(far, counts.on[step.index] + rounds);
  }
  return std::max(far, 0);
}

}  // namespace rushlight
