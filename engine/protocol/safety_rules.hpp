#pragma once

#include <string>
#include <vector>

#include "protocol/safety.hpp"
#include "protocol/safety_draft.hpp"

namespace rushlight {

/// What does not depend on a protocol: names, sources, that each law says something, and that it is about one of these
/// protocols.
std::vector<Finding> safety_findings(const SafetyDraft& draft, const std::vector<std::string>& protocols);

/// The laws over this protocol, its names looked up and its numbers read. Absent when one finding is an error.
Read<SafetyRules> safety_rules_of(const SafetyDraft& draft, const Protocol& protocol);

}  // namespace rushlight
