#include <algorithm>

#include "verify/properties.hpp"

namespace rushlight {

void every_step_is_reachable(Checking& checking) {
  const Protocol& protocol = checking.protocol;
  std::vector<bool> reached(protocol.steps.size(), false);
  std::vector<StepId> queue;
  const auto reach = [&](StepId step) {
    if (reached[step.index]) return;
    reached[step.index] = true;
    queue.push_back(step);
  };
  std::vector<std::vector<StepId>> leads_to(protocol.steps.size());
  for (const Way& way : checking.graph.ways) leads_to[way.from.index].push_back(way.to);
  reach(protocol.start);
  for (std::size_t at = 0; at < queue.size(); ++at) {
    const Step& step = protocol[queue[at]];
    for (const StepId to : leads_to[queue[at].index]) reach(to);
    for (std::size_t i = 0; i < protocol.watch.size() && !step.ends; ++i) {
      const WatchId watch{static_cast<std::uint16_t>(i)};
      if (std::find(step.handles.begin(), step.handles.end(), watch) == step.handles.end()) reach(protocol[watch].go);
    }
  }
  for (std::size_t i = 0; i < protocol.steps.size(); ++i) {
    if (!reached[i]) checking.error(protocol.steps[i].where, StepUnreachable{protocol.steps[i].name});
  }
}

}  // namespace rushlight
