#pragma once

#include "protocol/protocol.hpp"

// Private to engine/verify: what several proofs ask about a step.

namespace rushlight {

inline const Ask* ask_for(const Step& step, FactId fact) {
  for (const Ask& ask : step.asks) {
    if (ask.fact == fact) return &ask;
  }
  return nullptr;
}

inline StepId enters(const Rule& rule) { return rule.enters.value_or(rule.go); }

/// The rule leads to another protocol that is not at hand, for a while or for good.
inline bool takes_over_elsewhere(const Rule& rule) {
  return (!rule.visits.empty() || !rule.hands_over_to.empty()) && !rule.enters;
}

/// Every condition of a watch and of a rule: what leads a night on.
template <class Visit>
void each_leading_condition(const Protocol& protocol, const Visit& visit) {
  for (const Watch& watch : protocol.watch) {
    for (const Condition& condition : watch.when) visit(condition);
  }
  for (const Step& step : protocol.steps) {
    for (const Rule& rule : step.rules) {
      for (const Condition& condition : rule.when) visit(condition);
    }
  }
}

inline bool ends_a_visit(const Step& step) {
  return step.ends_visit || (step.ends && step.urgency != Urgency::emergency);
}

}  // namespace rushlight
