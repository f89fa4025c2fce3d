#pragma once

#include <vector>

#include "finding/finding.hpp"
#include "protocol/protocol.hpp"

namespace rushlight {

/// A number or a counter that a file no longer uses, and another file of its set does: where that is. The step or watch
/// of the same name here is where the use may have been lost; its line is added to what was found.
void point_at_lost_uses(const std::vector<const Protocol*>& protocols, std::vector<Finding>& findings);

}  // namespace rushlight
