#pragma once

#include <optional>

#include "protocol/protocol.hpp"

// Private to engine/verify: two thresholds that changed places, as the reason why a rule is dead.

namespace rushlight {

struct Crossing {
  ThresholdsCrossed kind;
  Where lower, upper;  // of the two values
};

/// The thresholds whose crossing lets the earlier rule (`taker`) take all of the later one: "below `very-low`" before "below
/// `low`". Empty when the two stand in the order their ranges are in: then it is the rules that stand in the wrong order.
std::optional<Crossing> crossing_that_silences(const Protocol& protocol, const Conditions& taker, const Conditions& rule);

/// The thresholds whose crossing leaves nothing between them: at least one and below the other.
std::optional<Crossing> crossing_within(const Protocol& protocol, const Conditions& rule);

}  // namespace rushlight
