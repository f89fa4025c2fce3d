#include "verify/properties.hpp"

namespace rushlight {

void insulin_stands_apart_from_glucagon(Checking& checking) {
  for (const Step& step : checking.protocol.steps) {
    const Action* insulin = nullptr;
    const Action* glucagon = nullptr;
    for (const ActionId id : step.actions) {
      const Action& action = checking.protocol[id];
      if (action.kind == ActionKind::insulin) insulin = &action;
      if (action.kind == ActionKind::glucagon) glucagon = &action;
    }
    if (insulin == nullptr || glucagon == nullptr) continue;
    checking.error(glucagon->where, InsulinWithGlucagon{step.name}, Because{"the insulin", insulin->where});
  }
}

}  // namespace rushlight
