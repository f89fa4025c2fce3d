#include "raster/png_from_svg.hpp"

#include <librsvg/rsvg.h>

#include <cmath>
#include <memory>

namespace rushlight {
namespace {

constexpr double kPointsToTheInch = 72.0;

struct Release {
  void operator()(RsvgHandle* handle) const { g_object_unref(handle); }
  void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
  void operator()(cairo_t* context) const { cairo_destroy(context); }
};

std::unique_ptr<RsvgHandle, Release> opened(const std::string& svg) {
  return std::unique_ptr<RsvgHandle, Release>(
      rsvg_handle_new_from_data(reinterpret_cast<const guint8*>(svg.data()), svg.size(), nullptr));
}

cairo_status_t append(void* to, const unsigned char* bytes, unsigned int count) {
  static_cast<std::string*>(to)->append(reinterpret_cast<const char*>(bytes), count);
  return CAIRO_STATUS_SUCCESS;
}

}  // namespace

std::string png_from_svg(const std::string& svg, int dots_per_inch) {
  const auto handle = opened(svg);
  if (handle == nullptr) return "";
  rsvg_handle_set_dpi(handle.get(), dots_per_inch);
  gdouble width = 0, height = 0;
  if (!rsvg_handle_get_intrinsic_size_in_pixels(handle.get(), &width, &height)) return "";
  const std::unique_ptr<cairo_surface_t, Release> surface(cairo_image_surface_create(
      CAIRO_FORMAT_RGB24, static_cast<int>(std::ceil(width)), static_cast<int>(std::ceil(height))));
  const std::unique_ptr<cairo_t, Release> context(cairo_create(surface.get()));
  cairo_set_source_rgb(context.get(), 1, 1, 1);
  cairo_paint(context.get());
  const RsvgRectangle page{0, 0, width, height};
  if (!rsvg_handle_render_document(handle.get(), context.get(), &page, nullptr)) return "";
  std::string png;
  const bool written = cairo_surface_write_to_png_stream(surface.get(), append, &png) == CAIRO_STATUS_SUCCESS;
  return written ? png : "";
}

int drawn_width(const std::string& svg, const std::string& id) {
  const auto handle = opened(svg);
  if (handle == nullptr) return -1;
  rsvg_handle_set_dpi(handle.get(), kPointsToTheInch);
  RsvgRectangle ink{}, logical{};
  const std::string element = "#" + id;
  if (!rsvg_handle_get_geometry_for_element(handle.get(), element.c_str(), &ink, &logical, nullptr)) return -1;
  return static_cast<int>(std::lround(logical.width * 1000));
}

}  // namespace rushlight
