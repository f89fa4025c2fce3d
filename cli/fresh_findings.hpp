#pragma once

#include <vector>

#include "finding/finding.hpp"

namespace rushlight {

/// Whether the same was said of the same file before, at whatever line.
bool is_among(const Finding& finding, const std::vector<Finding>& earlier);

struct Counts {
  std::size_t errors = 0, warnings = 0;
};
Counts counted(const std::vector<Finding>& findings);

}  // namespace rushlight
