#pragma once

#include <string>

#include "verify/compare.hpp"

namespace rushlight {

/// What one difference says, in lines for a nurse.
std::string text_from_difference(const Differences& all, const Difference& difference, std::size_t number);

/// "glucose 65 to 69 mg/dL (3.6 to 3.8 mmol/L), symptoms: no"; "everybody".
std::vector<std::string> texts_from_regions(const Differences& all, const Difference& difference);

/// The word above differences of one turn.
std::string heading_of(Difference::Turn turn);

}  // namespace rushlight
