#pragma once

#include <vector>

#include "verify/compare.hpp"
#include "verify/in_step.hpp"

// Private to engine/verify: what differs between two versions outside the ways that a night can take.

namespace rushlight {

/// Numbers with another value, questions and texts in other words, foods, danger signs, and steps that only one version
/// comes to.
std::vector<Difference> file_changes(const SideBySide& sides, const Protocol& was, const Protocol& now,
                                     const InStep& in_step);

}  // namespace rushlight
