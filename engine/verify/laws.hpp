#pragma once

#include <vector>

#include "protocol/safety.hpp"
#include "verify/check.hpp"

namespace rushlight {

/// What a protocol does against the laws that its clinic wrote (safety.xml): steps it comes to although it must never,
/// a worse answer that leads to a calmer step, and, as warnings, texts that are harder to read than the clinic wants.
std::vector<Finding> broken_laws(const CheckedProtocol& checked, const SafetyRules& rules);

}  // namespace rushlight
