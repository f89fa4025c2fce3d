#pragma once

#include <string>

#include "picture/picture.hpp"

namespace rushlight {

/// The picture as an SVG 1.1 document of the size of its paper; the same bytes for the same picture.
std::string svg_from(const Picture& picture);

}  // namespace rushlight
