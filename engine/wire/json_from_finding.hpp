#pragma once

#include <string>
#include <vector>

#include "finding/finding.hpp"

namespace rushlight {

/// {"severity":"error","kind":"wrong-word","file":...,"line":...,"column":...,"length":...,"sentence":...,"try":...,
/// "because":...}
/// `line`, `column` and `length` are left out for a finding about a file as a whole, `try` and `because` when there is
/// none.
std::string json_from_finding(const Finding& finding);

/// What `walk --json` answers to a line it refuses: {"error":{...the first error..., "also":[...the others...]}}.
std::string json_from_refusal(const std::vector<Finding>& findings);

}  // namespace rushlight
