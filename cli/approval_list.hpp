#pragma once

#include <iosfwd>

#include "cli/protocol_set.hpp"

namespace rushlight {

/// What somebody who approves a set stands for, protocol by protocol: whether insulin doses are on, every number with
/// its value, every dose from the least to the greatest that a child gets, how late the call can be, and what no check
/// shows. The set must have no error.
void print_what_is_approved(const ProtocolSet& set, std::ostream& out);

}  // namespace rushlight
