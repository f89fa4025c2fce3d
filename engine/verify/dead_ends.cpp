#include "verify/properties.hpp"

namespace rushlight {

// What follows an outcome or an overdue answer may never come; a rule is what is certain to be asked.
void no_step_is_a_dead_end(Checking& checking) {
  for (const Step& step : checking.protocol.steps) {
    if (!step.ends && step.rules.empty()) checking.error(step.where, DeadEnd{step.name});
  }
}

}  // namespace rushlight
