#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <variant>

#include "measure/amounts.hpp"

namespace rushlight {

enum class DurationMistake : std::uint8_t {
  not_a_number,    // see number; also a number below zero
  missing_unit,    // "40": minutes or hours is never guessed
  unknown_unit,    // "40 m", "40 mg"
  out_of_order,    // "30 min 1 h", "1 h 2 h": the longer unit comes first, each once
  part_of_second,  // "0.5 s"
  too_long,        // more than a thousand years
};

struct DurationRefusal {
  DurationMistake mistake;
  std::optional<NumberMistake> number;
  std::string text;  // the part that was not understood
};

/// Reads how long ago or how long something is, as a person types it: "40 min", "3 h", "1 h 30 min", "90 minutes",
/// "1 hora y 30 minutos" (any case, blanks around, "and" or "y" between). UCUM spellings and the English and Spanish
/// words for seconds, minutes, hours and days. What text_from_duration writes is read back as the same.
std::variant<Duration, DurationRefusal> duration_from_words(std::string_view text,
                                                            DecimalMark mark = DecimalMark::point);

}  // namespace rushlight
