#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "measure/quantity.hpp"

namespace rushlight {

/// The unit that a word certainly stands for though a file does not take it so: "minutes", "MG/DL", "gramos", "g/100 ml".
/// Empty for an exact code of the files, which needs no help, and for everything that could be two things ("m").
std::optional<Unit> unit_spelled_out(std::string_view written);

/// The amount as the files write it, when its unit is spelled out and is one of `wanted` ("min, s, h or d"): "15 minutes"
/// is "15 min". Empty otherwise.
std::string amount_meant_by(const std::string& written, const std::string& wanted);

}  // namespace rushlight
