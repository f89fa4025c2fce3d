#pragma once

#include <optional>

#include "episode/fold.hpp"
#include "finding/finding.hpp"

namespace rushlight {

/// What is said to whoever tells a deed of an action that the step does not show: which actions it does show. Empty
/// when every deed of the event fits (deed_out_of_place).
std::optional<Finding> misplaced_deed(const Protocol& protocol, const Child& child, const Episode& episode,
                                      const Event& event, const Where& where);

}  // namespace rushlight
