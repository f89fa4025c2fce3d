#pragma once

#include <string>

#include "finding/kinds.hpp"
#include "measure/decimal.hpp"

namespace rushlight {

/// Why a text is no number, for `BadNumber::why`: "a digit is missing beside the point".
std::string words_from_mistake(NumberMistake mistake);

/// The finding for a text that the number reader refused.
BadNumber bad_number(const std::string& written, NumberMistake mistake);

/// The number, with its unit if it has one, that a refused text certainly stands for: "3,9 mmol/L" is "3.9 mmol/L",
/// "070" is "70", ".5" is "0.5", "5." is "5", "+5" is "5".
/// Empty for everything that needs a guess ("7O", "1e3", "1,000") and for a number that can be read as it is.
std::string value_meant_by(const std::string& written);

}  // namespace rushlight
