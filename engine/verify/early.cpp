#include <algorithm>

#include "verify/properties.hpp"

namespace rushlight {
namespace {

/// What is given has to work before this reading means anything. That insulin works is just what a lower glucose shows.
bool has_to_work_first(const Protocol& protocol, const Step& step, const Compares& reads) {
  const bool falls = protocol[reads.fact].kind == FactKind::glucose &&
                     (reads.comparison == Comparison::below || reads.comparison == Comparison::at_most);
  return std::any_of(step.actions.begin(), step.actions.end(), [&](ActionId id) {
    const ActionKind kind = protocol[id].kind;
    return kind == ActionKind::by_mouth || kind == ActionKind::glucagon || (kind == ActionKind::insulin && !falls);
  });
}

// A choice; or a reading, where nothing was given that has to work first. A drink in sips is nothing of that kind.
bool is_told(const Protocol& protocol, const Step& step, const Condition& condition) {
  std::optional<FactId> fact;
  if (const auto* is = std::get_if<Is>(&condition.test)) {
    const FactKind kind = protocol[is->fact].kind;
    const bool choice = kind == FactKind::choice || kind == FactKind::ordered_choice;
    if (choice && (is->options & kUnknownBit) == 0) fact = is->fact;
  } else if (const auto* compares = std::get_if<Compares>(&condition.test)) {
    const FactKind kind = protocol[compares->fact].kind;
    const bool reading = kind == FactKind::glucose || kind == FactKind::ketones;
    if (reading && !has_to_work_first(protocol, step, *compares)) fact = compares->fact;
  }
  return fact && std::any_of(step.asks.begin(), step.asks.end(), [&](const Ask& ask) { return ask.fact == *fact; });
}

}  // namespace

void early_rules_can_be_met(Checking& checking) {
  for (const Step& step : checking.protocol.steps) {
    for (const Rule& rule : step.rules) {
      if (!rule.early) continue;
      const bool met = step.wait && !rule.when.empty() &&
                       std::all_of(rule.when.begin(), rule.when.end(), [&](const Condition& condition) {
                         return is_told(checking.protocol, step, condition);
                       });
      if (!met) checking.error(rule.where, EarlyRuleUntold{rule.name});
    }
  }
}

}  // namespace rushlight
