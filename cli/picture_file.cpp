#include "cli/picture_file.hpp"

#include <filesystem>

#include "cli/png_module.hpp"
#include "cli/written_out.hpp"
#include "picture/svg.hpp"

namespace rushlight {

bool is_picture_file(const std::string& path) {
  const std::filesystem::path extension = std::filesystem::path(path).extension();
  return extension == ".svg" || extension == ".png";
}

std::optional<Kind> written(const std::string& path, const Picture& picture) {
  std::string bytes = svg_from(picture);
  if (std::filesystem::path(path).extension() == ".png") {
    auto png = png_by_module(bytes);
    if (!png) {
      return WrongUse{"no PNG could be drawn: `rushlight-raster.so` is not beside the program, or does not work here",
                      "name a file that ends in .svg"};
    }
    bytes = std::move(*png);
  }
  auto finding = write_over(path, bytes, Reader::everybody);
  return finding ? std::optional<Kind>(std::move(finding->kind)) : std::nullopt;
}

}  // namespace rushlight
