#pragma once

#include <algorithm>
#include <optional>

#include "protocol/protocol.hpp"

// Private to engine/verify: what several proofs ask about a step.

namespace rushlight {

inline const Ask* ask_for(const Step& step, FactId fact) {
  for (const Ask& ask : step.asks) {
    if (ask.fact == fact) return &ask;
  }
  return nullptr;
}

/// The first time of any child or hour that is shorter than `least` or longer than `most`. A wait of no time only asks.
inline std::optional<Duration> time_outside(const Protocol& protocol, ThresholdId waits, std::optional<Duration> least,
                                            std::optional<Duration> most) {
  for (const Band& band : protocol[waits].bands) {
    const auto* time = std::get_if<Duration>(&band.value);
    if (time == nullptr || *time == Duration{0}) continue;
    if ((least && *time < *least) || (most && *time > *most)) return *time;
  }
  return std::nullopt;
}

/// A wait of no time asks at once: it only says what follows when nobody answers.
inline bool asks_at_once(const Protocol& protocol, const Wait& wait) {
  const std::vector<Band>& bands = protocol[wait.lasts].bands;
  return std::all_of(bands.begin(), bands.end(), [](const Band& band) {
    const auto* time = std::get_if<Duration>(&band.value);
    return time != nullptr && *time == Duration{0};
  });
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
