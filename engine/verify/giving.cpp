#include "verify/properties.hpp"

namespace rushlight {

void giving_is_followed_by_a_wait(Checking& checking) {
  const Protocol& protocol = checking.protocol;
  for (const Step& step : protocol.steps) {
    if (step.wait || step.ends) continue;
    const Ask* glucose = nullptr;
    for (const Ask& ask : step.asks) {
      if (glucose == nullptr && protocol[ask.fact].kind == FactKind::glucose) glucose = &ask;
    }
    if (glucose == nullptr) continue;
    for (const ActionId id : step.actions) {
      const Action& action = protocol[id];
      const bool gives = action.kind == ActionKind::glucagon || (action.kind == ActionKind::by_mouth && action.dose);
      if (!gives) continue;
      checking.error(step.where, AsksAtOnce{step.name, action.name, protocol[glucose->fact].name},
                     Because{"the question", glucose->where});
      break;
    }
  }
}

}  // namespace rushlight
