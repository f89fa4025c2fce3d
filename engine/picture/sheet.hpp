#pragma once

#include <string>
#include <vector>

#include "picture/picture.hpp"
#include "protocol/protocol.hpp"

namespace rushlight {

// What the map and the flow have in common.

inline constexpr Length kMargin = 24 * kPoint;

/// A line of text as it is set.
struct SetLine {
  std::string text;
  bool bold = false;
};

/// The distance of two base lines, for letters of this size.
constexpr Length pitch(Length size) { return size * 6 / 5; }

/// Sets lines below each other, the first one's base line a size below `top`. Gives where the next would begin.
Length set_lines(Picture& picture, const std::vector<SetLine>& lines, Spot top, Length size, Length room,
                 Anchor anchor);

/// Title and what the file is, across the top. Gives where the rest may begin.
Length set_head(Picture& picture, const Protocol& protocol, const std::string& title, const std::string& below);

/// "Urgency is said by the word first": the four of them as they look, along the bottom edge.
void set_urgency_legend(Picture& picture, Spot corner, Length width);

}  // namespace rushlight
