#pragma once

#include <optional>
#include <string>

#include "measure/quantity.hpp"
#include "protocol/text.hpp"

namespace rushlight {

/// The insulin that somebody types: "2", "2.5 units", "2,5 unidades". Empty for anything else, for nothing, and for
/// more than any child is given at once: there the finger slipped.
std::optional<Quantity> units_from_text(const std::string& typed, Language language);

}  // namespace rushlight
