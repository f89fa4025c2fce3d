#include <algorithm>

#include "verify/law_properties.hpp"
#include "verify/step_parts.hpp"

namespace rushlight {

namespace {

bool is_about(const Protocol& protocol, const LookLaw& law, const Step& step) {
  if (law.urgency && step.urgency != *law.urgency) return false;
  return !law.after || std::any_of(step.actions.begin(), step.actions.end(),
                                   [&](ActionId action) { return protocol[action].dose == law.after; });
}

void look_at(Checking& checking, const LookLaw& law, const Step& step, ThresholdId waits, const std::string& what,
             const Where& where) {
  const auto time = time_outside(checking.protocol, waits, law.at_least, law.at_most);
  if (!time) return;
  const auto text = [](const std::optional<Duration>& limit) { return limit ? text_from_duration(*limit) : ""; };
  checking.error(where,
                 LookOutside{law.name, step.name, what, checking.protocol[waits].name, text_from_duration(*time),
                             text(law.at_least), text(law.at_most)},
                 Because{"the law `" + law.name + "`", law.where});
}

}  // namespace

void looks_in_time(Checking& checking, const LookLaw& law) {
  const Protocol& protocol = checking.protocol;
  for (const Step& step : protocol.steps) {
    if (step.ends || !is_about(protocol, law, step)) continue;
    if (step.wait) look_at(checking, law, step, step.wait->lasts, "waits", step.wait->where);
    for (const ActionId id : step.actions) {
      const Action& action = protocol[id];
      if (action.kind != ActionKind::call_emergency || !action.call || law.after) continue;
      look_at(checking, law, step, action.call->answer_within, "waits for an answer to `" + action.name + "`",
              action.where);
    }
  }
}

}  // namespace rushlight
