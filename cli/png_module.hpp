#pragma once

#include <optional>
#include <string>

namespace rushlight {

/// The PNG of a picture, by the part of the program that lies beside it and is loaded only for this (engine/raster).
/// Empty when that part is not there or cannot draw.
std::optional<std::string> png_by_module(const std::string& svg);

}  // namespace rushlight
