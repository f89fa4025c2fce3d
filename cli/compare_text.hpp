#pragma once

#include <string>
#include <vector>

#include "verify/compare.hpp"

namespace rushlight {

/// Everything that differs, in lines for a nurse: first what all of it has in common, then what became calmer, and the
/// rest after it; what comes to the same is told together. Ends with how much is the same.
std::string text_from_differences(const Differences& all);

/// "glucose 65 to 69 mg/dL (3.6 to 3.8 mmol/L), symptoms: no"; "everybody".
std::vector<std::string> texts_from_regions(const Differences& all, const Difference& difference);

}  // namespace rushlight
