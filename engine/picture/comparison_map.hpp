#pragma once

#include <optional>

#include "picture/picture.hpp"
#include "protocol/side_by_side.hpp"
#include "verify/decisions.hpp"

namespace rushlight {

/// What a step decided before, what it decides now, and where that differs, as three maps below each other with the
/// same borders in all of them. Both versions must have passed their checks. Empty when the other things that decide
/// have too many combinations.
struct ComparisonMap {
  Picture picture;
  bool differs;  // anywhere on it
};
std::optional<ComparisonMap> comparison_map(const SideBySide& sides, StepId was, StepId now, const Subject& across,
                                            const std::optional<Subject>& down, const std::vector<Held>& held);

}  // namespace rushlight
