#pragma once

#include <optional>

#include "protocol/side_by_side.hpp"

namespace rushlight {

/// The step of the other version that stands for one whose name only its own version has: the only one there with a
/// name of its own that looks alike, else the only one with the same headline, else the only one from which a night
/// goes on together. Empty when there is none, or nobody can tell which.
std::optional<StepId> renamed_step(const SideBySide& sides, StepId step);

}  // namespace rushlight
