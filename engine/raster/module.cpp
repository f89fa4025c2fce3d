#include "raster/module.hpp"

#include "raster/png_from_svg.hpp"

bool rushlight_png_from_svg(const std::string& svg, int dots_per_inch, std::string& png) {
  png = rushlight::png_from_svg(svg, dots_per_inch);
  return !png.empty();
}
