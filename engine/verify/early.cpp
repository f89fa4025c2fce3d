#include <algorithm>

#include "verify/properties.hpp"

namespace rushlight {
namespace {

bool is_told_choice(const Protocol& protocol, const Step& step, const Condition& condition) {
  const auto* is = std::get_if<Is>(&condition.test);
  if (is == nullptr || (is->options & kUnknownBit) != 0) return false;
  const FactKind kind = protocol[is->fact].kind;
  if (kind != FactKind::choice && kind != FactKind::ordered_choice) return false;
  return std::any_of(step.asks.begin(), step.asks.end(), [&](const Ask& ask) { return ask.fact == is->fact; });
}

}  // namespace

void early_rules_can_be_met(Checking& checking) {
  for (const Step& step : checking.protocol.steps) {
    for (const Rule& rule : step.rules) {
      if (!rule.early) continue;
      const bool met = step.wait && !rule.when.empty() &&
                       std::all_of(rule.when.begin(), rule.when.end(), [&](const Condition& condition) {
                         return is_told_choice(checking.protocol, step, condition);
                       });
      if (!met) checking.error(rule.where, EarlyRuleUntold{rule.name});
    }
  }
}

}  // namespace rushlight
