#pragma once

#include <string>
#include <variant>

#include "episode/value.hpp"
#include "finding/kinds.hpp"
#include "measure/decimal.hpp"
#include "protocol/fact.hpp"

namespace rushlight {

/// The answer to one question, as it is written in an event or an example: "yes", "52 mg/dL", "LO", "40 min", "3",
/// "1.2". "unknown" is "can't tell" for every question. A number without a unit is in `usual` only where that is
/// plausible. Refuses what a person would have to guess at: another unit, a word of another question, numbers below
/// zero. `mark` says whether the comma is a decimal mark there.
std::variant<Value, Kind> value_from_text(const std::string& text, const Fact& fact, GlucoseUnit usual,
                                          DecimalMark mark = DecimalMark::point);

/// How an answer is written: "yes", "52 mg/dL", "1.2 mmol/L", "40 min", "none", "unknown", "3".
std::string text_from_value(const Value& value, const Fact& fact);

}  // namespace rushlight
