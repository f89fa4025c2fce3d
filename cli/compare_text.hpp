#pragma once

#include <string>

#include "cli/told_differences.hpp"

namespace rushlight {

/// Everything that differs, in lines for a nurse: first what all of it has in common, then what became calmer, and the
/// rest after it; what comes to the same is told together. Ends with how much is the same.
std::string text_from_differences(const ToldDifferences& told);

}  // namespace rushlight
