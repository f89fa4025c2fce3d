#pragma once

#include <vector>

#include "protocol/protocol.hpp"

// Private to engine/sheet.

namespace rushlight {

/// A stretch of the day; it may pass midnight.
struct Hours {
  ClockTime from, up_to;
};

/// The stretches of the day in which the protocol's numbers, or its rules, are not the same; the one that holds noon
/// first. One when the hour changes nothing. A wait that hangs on the hour is no reason: paper calls there.
std::vector<Hours> hours_of(const Protocol& protocol, const Context& context);

}  // namespace rushlight
