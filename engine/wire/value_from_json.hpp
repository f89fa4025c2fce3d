#pragma once

#include <optional>
#include <string>
#include <variant>

#include "episode/value.hpp"
#include "protocol/fact.hpp"
#include "wire/json_tree.hpp"

namespace rushlight {

/// The answer to one question, from a text ("yes", "52 mg/dL", "LO", "40 min") or a number (3, 52, 1.2).
/// "unknown" is "can't tell" for every question. A number without a unit is in `usual` only where that is plausible.
/// Refuses what a person would have to guess at: another unit, a word of another question, numbers below zero.
std::variant<Value, Finding> value_from_json(const JsonNode& node, const Fact& fact, GlucoseUnit usual);

/// The same for an answer that was typed: `mark` says whether the comma is a decimal mark there.
std::variant<Value, Kind> value_from_text(const std::string& text, const Fact& fact, GlucoseUnit usual,
                                          DecimalMark mark = DecimalMark::point);

/// How an answer is written in an event: "yes", "52 mg/dL", "1.2 mmol/L", "40 min", "none", "unknown", "3".
std::string text_from_value(const Value& value, const Fact& fact);

}  // namespace rushlight
