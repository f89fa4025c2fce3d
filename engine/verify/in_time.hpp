#pragma once

#include <string>
#include <vector>

#include "protocol/safety.hpp"
#include "verify/check.hpp"

namespace rushlight {

/// What was found of the `within` laws of one protocol.
struct InTime {
  std::vector<Finding> findings;  // a call that comes too late, or never, with a night in which it does
  std::vector<Shown> shown;       // of each law that is kept: how late the call can be
};

/// Looks at every night in which a law's conditions stay true, in both glucose units. `whole` is the same protocol
/// linked with those it can come to; it is looked at where a night leaves the protocol.
InTime calls_in_time(const Protocol& alone, const Protocol& whole, const std::vector<WithinLaw>& laws);

}  // namespace rushlight
