#pragma once

#include <string>
#include <utility>
#include <vector>

#include "protocol/child.hpp"
#include "protocol/protocol.hpp"

// Pieces of protocols in code: no texts, one source, no places.

namespace rushlight::naive {

inline Where nowhere() { return Where{"", 0, 0, 0}; }

/// A protocol with the child-file facts, one source and nothing else.
Protocol bare_protocol();

FactId add_fact(Protocol& protocol, const char* name, FactKind kind, const std::vector<std::string>& options = {});
ThresholdId add_threshold(Protocol& protocol, ThresholdKind kind, Limit value);
ThresholdId add_time(Protocol& protocol, Duration time);
CounterId add_counter(Protocol& protocol);
TimerId add_timer(Protocol& protocol);
Step& add_step(Protocol& protocol, const std::string& name, Urgency urgency);
ActionId add_action(Protocol& protocol, StepId step, ActionKind kind);

inline Condition when(decltype(Condition::test) test) { return Condition{test, nowhere()}; }
inline Condition is(FactId fact, std::uint64_t options) { return when(Is{fact, options}); }
inline Rule rule_to(StepId go, Conditions conditions = {}, bool otherwise = false) {
  return Rule{"", std::move(conditions), otherwise, go, {}, SourceId{0}, nowhere()};
}

/// An invented child of six; in mg/dL, with injections.
Child plain_child();

}  // namespace rushlight::naive
