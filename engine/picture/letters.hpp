#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "picture/picture.hpp"

namespace rushlight {

/// How wide a text is in DejaVu Sans, the widest of the fonts that a picture names: what fits in it fits in all of
/// them. Never less than what a renderer draws; a sign that the table lacks counts as a whole square.
Length width_of(std::string_view text, Length size, bool bold);

/// The text in lines that fit the room; a word that is too long for it stands in a line of its own and is broken.
std::vector<std::string> lines_within(std::string_view text, Length room, Length size, bool bold);

}  // namespace rushlight
