#pragma once

#include <optional>
#include <string>

#include "finding/finding.hpp"

namespace rushlight {

/// A finding in its parts, for a face that sets them itself. Empty where it has nothing to say.
struct ToldFinding {
  std::string place;  // "file:line:column"
  std::string sentence;
  std::string line, caret;  // the line of the file, with its number, and what is marked in it
  std::string because, right;
};
ToldFinding told_finding(const Finding& finding, const std::optional<std::string>& line_text);

}  // namespace rushlight
