#pragma once

#include <vector>

#include "finding/finding.hpp"
#include "protocol/protocol.hpp"

namespace rushlight {

/// What the protocols of one set say otherwise than one another: files of two sets; a number or a question of one name
/// and one meaning that has two values or two readings; a sign of getting worse that only one of them lets a caregiver
/// tell. All are warnings: each file is right in itself.
std::vector<Finding> apart_in_set(const std::vector<const Protocol*>& protocols);

}  // namespace rushlight
