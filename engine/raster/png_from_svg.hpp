#pragma once

#include <string>

namespace rushlight {

/// The PNG of an SVG document that names its size in points, this many dots to the inch. Letters are drawn with the
/// fonts of this machine. Empty when it is no SVG or cannot be drawn.
std::string png_from_svg(const std::string& svg, int dots_per_inch);

/// How wide the element with this id is drawn, in thousandths of the document's unit; below 0 when there is none. The
/// judge of engine/picture/letters.
int drawn_width(const std::string& svg, const std::string& id);

}  // namespace rushlight
