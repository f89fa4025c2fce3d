#pragma once

#include <variant>

#include "episode/value_from_text.hpp"
#include "finding/finding.hpp"
#include "wire/json_tree.hpp"

namespace rushlight {

/// The answer to one question, from a text ("yes", "52 mg/dL", "LO", "40 min") or a number (3, 52, 1.2).
std::variant<Value, Finding> value_from_json(const JsonNode& node, const Fact& fact, GlucoseUnit usual);

}  // namespace rushlight
