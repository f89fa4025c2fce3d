#include "verify/properties.hpp"

namespace rushlight {

void nothing_by_mouth_in_danger(Checking& checking) {
  const Protocol& protocol = checking.protocol;
  for (const Step& step : protocol.steps) {
    const Watch* danger = nullptr;
    for (const WatchId watch : step.handles) {
      if (danger == nullptr && watches_a_danger_sign(protocol, protocol[watch])) danger = &protocol[watch];
    }
    if (danger == nullptr) continue;
    for (const ActionId id : step.actions) {
      const Action& action = protocol[id];
      if (action.kind != ActionKind::by_mouth && action.kind != ActionKind::fluid) continue;
      checking.error(action.where, MouthWhileDanger{step.name, action.name},
                     Because{"the step handles watch `" + danger->name + "`", danger->where});
    }
  }
}

}  // namespace rushlight
