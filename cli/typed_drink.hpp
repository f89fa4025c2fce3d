#pragma once

#include <optional>
#include <string>

#include "measure/quantity.hpp"
#include "protocol/text.hpp"

namespace rushlight {

/// "60 mL", "60ml", "1,5 dl": so much was drunk, in mL. A bare number counts only where millilitres were asked for. Nothing for
/// what no child drinks at a time (more than a litre), and for anything else.
std::optional<Quantity> drink_from_text(const std::string& typed, Language language, bool bare_number_counts);

}  // namespace rushlight
