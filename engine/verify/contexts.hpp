#pragma once

#include <optional>
#include <vector>

#include "protocol/protocol.hpp"

// Private to engine/verify.

namespace rushlight {

/// Children and hours among which no band of certain thresholds tells a difference: from each corner up to, not
/// including, the next edge; an absent end is open.
struct ContextCell {
  Age age;
  std::optional<Age> age_end;
  BodyWeight weight;
  std::optional<BodyWeight> weight_end;
  ClockTime clock;
  std::optional<ClockTime> clock_end;
  bool splits_age, splits_weight, splits_clock;

  Context context() const { return Context{age, weight, clock}; }
};

/// The cells that the bands of these thresholds make; one for all when none of them has bands.
std::vector<ContextCell> context_cells(const Protocol& protocol, const std::vector<ThresholdId>& thresholds);

}  // namespace rushlight
