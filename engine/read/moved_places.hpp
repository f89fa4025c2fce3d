#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "protocol/draft.hpp"
#include "read/source_map.hpp"

namespace rushlight {

/// A part of a text with other letters in its place.
struct Splice {
  Span span;
  std::string text;
};

/// The text with all of them put in. They do not meet; their order does not matter.
std::string spliced(std::string text, std::vector<Splice> splices);

/// Moves every place of a draft to where it stands when its file is `after` instead of `before`, as reading `after`
/// would give it. `splices` are what makes the one of the other.
void move_places(Draft& draft, std::string_view before, const std::vector<Splice>& splices, std::string_view after);

}  // namespace rushlight
