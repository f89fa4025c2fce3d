#pragma once

#include <string>

/// What cli/png_module looks for in rushlight-raster.so: writes the PNG, or gives false.
extern "C" bool rushlight_png_from_svg(const std::string& svg, int dots_per_inch, std::string& png);
