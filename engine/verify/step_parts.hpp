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

inline bool ends_a_visit(const Step& step) {
  return step.ends_visit || (step.ends && step.urgency != Urgency::emergency);
}

}  // namespace rushlight
