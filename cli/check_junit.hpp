#pragma once

#include <string>
#include <vector>

#include "cli/check_files.hpp"

namespace rushlight {

/// What was found as JUnit XML for a clinic's CI: a suite for each file, a case for each property that it is looked at
/// for. A property that does not hold is a failure with every finding about it, a file that cannot be read an error,
/// and what was not looked at is skipped; warnings stand in the output of their case and fail nothing.
std::string junit_from_checked(const std::vector<CheckedPath>& all);

}  // namespace rushlight
