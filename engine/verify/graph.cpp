#include "verify/graph.hpp"

#include <algorithm>

namespace rushlight {

Graph graph_of(const Protocol& protocol) {
  Graph graph;
  for (std::size_t i = 0; i < protocol.steps.size(); ++i) {
    const Step& step = protocol.steps[i];
    if (step.ends) continue;
    const StepId from{static_cast<std::uint16_t>(i)};
    for (const ActionId action : step.actions) {
      for (const auto& outcome : protocol[action].on) {
        if (outcome && outcome->go)
          graph.ways.push_back(Way{Way::Kind::outcome, from, *outcome->go, 0, outcome->where});
      }
    }
    if (step.wait) graph.ways.push_back(Way{Way::Kind::overdue, from, step.wait->go, 0, step.wait->where});
    for (std::size_t rule = 0; rule < step.rules.size(); ++rule) {
      const Rule& each = step.rules[rule];
      if (!each.hands_over_to.empty()) continue;  // this protocol ends here
      graph.ways.push_back(Way{Way::Kind::rule, from, each.go, static_cast<std::uint16_t>(rule), each.where});
    }
  }
  return graph;
}

namespace {

/// A wait of no time only asks.
bool takes_time(const Protocol& protocol, const Wait& wait) {
  const std::vector<Band>& bands = protocol[wait.lasts].bands;
  return std::all_of(bands.begin(), bands.end(), [](const Band& band) {
    const auto* time = std::get_if<Duration>(&band.value);
    return time != nullptr && *time > Duration{0};
  });
}

}  // namespace

// A rule is read after the wait and the questions of its step, an outcome before them.
bool passes_a_wait(const Protocol& protocol, const Way& way) {
  if (way.kind == Way::Kind::overdue) return true;
  if (way.kind != Way::Kind::rule) return false;
  const Step& step = protocol[way.from];
  const bool asks_anew = std::any_of(step.asks.begin(), step.asks.end(), [](const Ask& ask) { return !ask.fresh; });
  // The visited protocol passes its own checks, and what it treats it waits for.
  const bool waits = step.wait && takes_time(protocol, *step.wait);
  return waits || asks_anew || !step.rules[way.rule].visits.empty();
}

namespace {

// Of all steps, one after the other in one list; a list of its own for each step took a third of the time.
class Neighbours {
 public:
  using Of = std::uint16_t (*)(const Way&);
  Neighbours(std::size_t steps, const Graph& graph, const std::vector<std::size_t>& ways, Of from, Of to)
      : first_(steps + 1, 0), all_(ways.size()) {
    for (const std::size_t way : ways) ++first_[from(graph.ways[way])];
    for (std::size_t step = 1; step <= steps; ++step) first_[step] += first_[step - 1];
    for (std::size_t i = ways.size(); i-- > 0;) all_[--first_[from(graph.ways[ways[i]])]] = to(graph.ways[ways[i]]);
  }

  std::size_t count(std::uint16_t step) const { return first_[step + 1U] - first_[step]; }
  std::uint16_t at(std::uint16_t step, std::size_t i) const { return all_[first_[step] + i]; }

 private:
  std::vector<std::size_t> first_;
  std::vector<std::uint16_t> all_;
};

std::uint16_t from_of(const Way& way) { return way.from.index; }
std::uint16_t to_of(const Way& way) { return way.to.index; }

// Steps in the order in which a depth-first walk leaves them; an explicit stack, because a file may be long.
void walk(const Neighbours& neighbours, std::uint16_t start, std::vector<bool>& seen,
          std::vector<std::uint16_t>& left) {
  if (neighbours.count(start) == 0) {
    seen[start] = true;
    return left.push_back(start);
  }
  std::vector<std::pair<std::uint16_t, std::size_t>> stack{{start, 0}};
  seen[start] = true;
  while (!stack.empty()) {
    auto& [node, next] = stack.back();
    if (next == neighbours.count(node)) {
      left.push_back(node);
      stack.pop_back();
      continue;
    }
    const std::uint16_t to = neighbours.at(node, next++);
    if (seen[to]) continue;
    seen[to] = true;
    stack.emplace_back(to, 0);
  }
}

}  // namespace

// Kosaraju: walk forward, then backward in the reverse order of leaving; each backward walk is one group.
std::vector<std::vector<StepId>> loops_over(const Protocol& protocol, const Graph& graph,
                                            const std::vector<std::size_t>& ways) {
  const std::size_t count = protocol.steps.size();
  const Neighbours forward(count, graph, ways, from_of, to_of), backward(count, graph, ways, to_of, from_of);
  std::vector<bool> leads_to_itself(count, false);
  for (const std::size_t way : ways) {
    if (graph.ways[way].from == graph.ways[way].to) leads_to_itself[graph.ways[way].from.index] = true;
  }
  std::vector<bool> seen(count, false);
  std::vector<std::uint16_t> order;
  for (std::uint16_t step = 0; step < count; ++step) {
    if (!seen[step]) walk(forward, step, seen, order);
  }
  std::vector<std::vector<StepId>> groups;
  std::vector<std::uint16_t> group;
  seen.assign(count, false);
  for (auto step = order.rbegin(); step != order.rend(); ++step) {
    if (seen[*step]) continue;
    group.clear();
    walk(backward, *step, seen, group);
    if (group.size() == 1 && !leads_to_itself[group.front()]) continue;
    std::sort(group.begin(), group.end());
    groups.emplace_back();
    for (const std::uint16_t member : group) groups.back().push_back(StepId{member});
  }
  std::sort(groups.begin(), groups.end(),
            [](const auto& a, const auto& b) { return a.front().index < b.front().index; });
  return groups;
}

std::vector<std::size_t> shortest_round(const Protocol& protocol, const Graph& graph,
                                        const std::vector<std::size_t>& ways, StepId start) {
  std::vector<std::vector<std::size_t>> leaving(protocol.steps.size());
  for (const std::size_t way : ways) leaving[graph.ways[way].from.index].push_back(way);
  constexpr std::size_t kNone = static_cast<std::size_t>(-1);
  std::vector<std::size_t> came_by(protocol.steps.size(), kNone);
  std::vector<StepId> queue{start};
  for (std::size_t at = 0; at < queue.size(); ++at) {
    for (const std::size_t way : leaving[queue[at].index]) {
      const StepId to = graph.ways[way].to;
      if (came_by[to.index] != kNone) continue;
      came_by[to.index] = way;
      if (!(to == start)) {
        queue.push_back(to);
        continue;
      }
      std::vector<std::size_t> round{way};
      while (!(graph.ways[round.back()].from == start)) round.push_back(came_by[graph.ways[round.back()].from.index]);
      std::reverse(round.begin(), round.end());
      return round;
    }
  }
  return {};
}

}  // namespace rushlight
