#pragma once

#include <string>

#include "publish/laid.hpp"

namespace rushlight {

/// The pages below one another as one SVG whose text is text: to be selected, searched and read aloud. Each line is
/// held to the width it was measured with, so that another font does not run over.
std::string svg_from_laid(const Laid& laid);

}  // namespace rushlight
