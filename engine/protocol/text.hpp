#pragma once

#include <string>
#include <variant>
#include <vector>

#include "protocol/ids.hpp"

namespace rushlight {

/// The languages the house speaks. A protocol declares which of them its texts come in.
enum class Language : std::uint8_t { en, es };
inline constexpr int kLanguages = 2;

/// Blanks in a text that the episode fills, beside the protocol's own thresholds and doses.
enum class Filler : std::uint8_t {
  child, food, other_foods, glucose, until, again, clinic_number, on_call_number, emergency_number, second_adult, address,
  rescue_place, told, ketones, drunk, fluid_goal, syringe_mark,
};

/// A text with its blanks: words, the value of a threshold, the amount of a dose, or a filler.
using Piece = std::variant<std::string, ThresholdId, DoseId, Filler>;
using Template = std::vector<Piece>;

/// One text in each language of the protocol; asking for a language it lacks gives the first one it has.
struct Text {
  Template line[kLanguages];
  const Template& in(Language language) const {
    const Template& wanted = line[static_cast<int>(language)];
    if (!wanted.empty()) return wanted;
    for (const Template& other : line) {
      if (!other.empty()) return other;
    }
    return wanted;
  }
};

}  // namespace rushlight
