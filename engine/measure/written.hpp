#pragma once

#include <string>
#include <string_view>

namespace rushlight {

/// A number and what stands behind it, not yet understood: "70 mg/dL" is "70" and "mg/dL".
/// Both look into the text they were cut from.
struct Written {
  std::string_view number;
  std::string_view unit;
};

/// Cuts at the first blank, so that "7O mg/dL" keeps its wrong "7O" whole; without a blank where digits, marks
/// and signs end, so that "70mg/dL" is cut too. The blanks between are dropped, no others.
Written written_from_text(std::string_view text);

/// Without the spaces and tabs around.
std::string_view trimmed(std::string_view text);

/// ASCII letters made small; all other bytes stay.
std::string small_letters(std::string_view text);

}  // namespace rushlight
