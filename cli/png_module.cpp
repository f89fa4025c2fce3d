#include "cli/png_module.hpp"

#include "cli/module_door.hpp"
#include "raster/module.hpp"

namespace rushlight {

namespace {
constexpr int kDotsPerInch = 200;  // letters of 6 points stay sharp on a screen and on paper
}

std::optional<std::string> png_by_module(const std::string& svg) {
  auto* const draw = reinterpret_cast<decltype(&rushlight_png_from_svg)>(
      door_of_module("rushlight-raster.so", "rushlight_png_from_svg"));
  std::string png;
  if (draw == nullptr || !draw(svg, kDotsPerInch, png)) return std::nullopt;
  return png;
}

}  // namespace rushlight
