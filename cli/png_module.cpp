#include "cli/png_module.hpp"

#include <dlfcn.h>

#include <filesystem>

#include "raster/module.hpp"

namespace rushlight {

namespace {
constexpr int kDotsPerInch = 200;  // letters of 6 points stay sharp on a screen and on paper
}

std::optional<std::string> png_by_module(const std::string& svg) {
  std::error_code error;
  const std::filesystem::path program = std::filesystem::read_symlink("/proc/self/exe", error);
  const std::string module = (program.parent_path() / "rushlight-raster.so").string();
  void* const opened = dlopen(module.c_str(), RTLD_NOW | RTLD_LOCAL);  // never closed: glib cannot be unloaded
  if (opened == nullptr) return std::nullopt;
  auto* const draw = reinterpret_cast<decltype(&rushlight_png_from_svg)>(dlsym(opened, "rushlight_png_from_svg"));
  std::string png;
  if (draw == nullptr || !draw(svg, kDotsPerInch, png)) return std::nullopt;
  return png;
}

}  // namespace rushlight
