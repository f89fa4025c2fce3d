#pragma once

#include <cstdint>
#include <vector>

#include "verify/regions.hpp"

// For engine/verify and engine/picture: how the values of one thing are cut.

namespace rushlight {

inline constexpr std::int64_t kDayInMinutes = 24 * 60;

/// Numbers from, up to but not including.
struct Room {
  std::int64_t from = 0;
  std::int64_t up_to = std::int64_t{1} << 60;
};

/// The stretches of a thing that no condition with these borders can tell apart, "can't tell" left out: one for each
/// option, each border and each gap between two borders
/// (given in their order, each once). Numbers are those within the room.
std::vector<Stretch> stretches_of(const Protocol& protocol, const Subject& subject, GlucoseUnit unit, const Room& room,
                                  const std::vector<std::int64_t>& borders);

/// Whether nobody may know it: every question, and of the child file the weight and the total daily dose.
bool may_be_unknown(const Fact& fact);

/// The thresholds a condition compares with.
std::vector<ThresholdId> limits_of(const Condition& condition);

}  // namespace rushlight
