#pragma once

#include <string>
#include <vector>

#include "cli/check_files.hpp"

namespace rushlight {

/// What was found as one JSON document on one line, as docs/wire-format.md describes it.
std::string json_from_checked(const std::vector<CheckedPath>& all);

}  // namespace rushlight
