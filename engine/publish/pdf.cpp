#include "publish/pdf.hpp"

#include <cairo-pdf.h>
#include <pango/pangocairo.h>

#include "publish/pen.hpp"

namespace rushlight {
namespace {

cairo_status_t keep(void* bytes, const unsigned char* data, unsigned int size) {
  static_cast<std::string*>(bytes)->append(reinterpret_cast<const char*>(data), size);
  return CAIRO_STATUS_SUCCESS;
}

class Drawing {
 public:
  explicit Drawing(cairo_t* cairo) : cairo_(cairo), layout_(pango_cairo_create_layout(cairo)) {
    pango_context_set_base_dir(pango_layout_get_context(layout_), PANGO_DIRECTION_LTR);
    pango_context_set_round_glyph_positions(pango_layout_get_context(layout_), FALSE);
    pango_layout_set_auto_dir(layout_, FALSE);
  }
  ~Drawing() { g_object_unref(layout_); }
  Drawing(const Drawing&) = delete;
  Drawing& operator=(const Drawing&) = delete;

  void page(const LaidPage& page) {
    for (const LaidBox& box : page.boxes) {
      for (const PageBlock& block : box.blocks) {
        const bool tagged = block.tag != "Artifact";
        if (tagged) cairo_tag_begin(cairo_, block.tag.c_str(), nullptr);
        for (const Ink& mark : block.marks) draw(mark);
        if (tagged) cairo_tag_end(cairo_, block.tag.c_str());
      }
    }
  }

 private:
  void letters(const std::string& text, double size, bool bold) {
    PangoFontDescription* font = pango_font_description_new();
    pango_font_description_set_family(font, kFamily);
    pango_font_description_set_weight(font, bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
    pango_font_description_set_absolute_size(font, size * PANGO_SCALE);
    pango_layout_set_font_description(layout_, font);
    pango_font_description_free(font);
    pango_layout_set_text(layout_, text.c_str(), static_cast<int>(text.size()));
  }

  void ink(bool white) { cairo_set_source_rgb(cairo_, white ? 1 : 0, white ? 1 : 0, white ? 1 : 0); }

  void show_line(double x, double baseline) {
    cairo_move_to(cairo_, x, baseline);
    pango_cairo_show_layout_line(cairo_, pango_layout_get_line_readonly(layout_, 0));
  }

  void draw(const Ink& mark) {
    const Frame& at = mark.frame;
    cairo_set_line_width(cairo_, mark.weight);
    ink(mark.white);
    switch (mark.kind) {
      case Ink::Kind::text:
        letters(mark.text, mark.size, mark.bold);
        show_line(at.x, at.y + mark.baseline);
        break;
      case Ink::Kind::outline:
      case Ink::Kind::check:
        cairo_rectangle(cairo_, at.x, at.y, at.width, at.height);
        cairo_stroke(cairo_);
        break;
      case Ink::Kind::filled:
        cairo_rectangle(cairo_, at.x, at.y, at.width, at.height);
        cairo_fill(cairo_);
        break;
      case Ink::Kind::line:
        cairo_move_to(cairo_, at.x, at.y);
        cairo_line_to(cairo_, at.x + at.width, at.y + at.height);
        cairo_stroke(cairo_);
        break;
      case Ink::Kind::disc:
        disc(mark);
        break;
      case Ink::Kind::arrow_down:
        arrow(at.x, at.y, at.x, at.y + at.height);
        break;
      case Ink::Kind::arrow_right:
        arrow(at.x, at.y, at.x + at.width, at.y);
        break;
    }
  }

  void disc(const Ink& mark) {
    const Frame& at = mark.frame;
    constexpr double kQuarter = 1.5707963267948966;
    const double round = at.height / 2;
    cairo_new_path(cairo_);  // wider than high where two digits stand in it
    cairo_arc(cairo_, at.x + round, at.y + round, round, kQuarter, 3 * kQuarter);
    cairo_arc(cairo_, at.x + at.width - round, at.y + round, round, -kQuarter, kQuarter);
    cairo_close_path(cairo_);
    cairo_fill(cairo_);
    ink(!mark.white);
    letters(mark.text, mark.size, true);
    PangoRectangle inked, room;
    pango_layout_line_get_extents(pango_layout_get_line_readonly(layout_, 0), &inked, &room);
    const double middle = (inked.x + inked.width / 2.0) / PANGO_SCALE,
                 up = (inked.y + inked.height / 2.0) / PANGO_SCALE;
    show_line(at.x + at.width / 2 - middle, at.y + at.height / 2 - up);
  }

  void arrow(double x, double y, double to_x, double to_y) {
    const double head = 5;
    const bool down = to_x == x;
    cairo_move_to(cairo_, x, y);
    cairo_line_to(cairo_, down ? to_x : to_x - head, down ? to_y - head : to_y);
    cairo_stroke(cairo_);
    cairo_move_to(cairo_, to_x, to_y);
    cairo_line_to(cairo_, down ? to_x - head * 0.8 : to_x - head * 1.4, down ? to_y - head * 1.4 : to_y - head * 0.8);
    cairo_line_to(cairo_, down ? to_x + head * 0.8 : to_x - head * 1.4, down ? to_y - head * 1.4 : to_y + head * 0.8);
    cairo_close_path(cairo_);
    cairo_fill(cairo_);
  }

  cairo_t* cairo_;
  PangoLayout* layout_;
};

}  // namespace

std::string pdf_from_laid(const Laid& laid) {
  std::string bytes;
  cairo_surface_t* surface = cairo_pdf_surface_create_for_stream(keep, &bytes, laid.paper.width, laid.paper.height);
  cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_TITLE, laid.title.c_str());
  cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATOR, "Rushlight");
  cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATE_DATE, (laid.date + "T12:00:00Z").c_str());
  cairo_t* cairo = cairo_create(surface);
  cairo_tag_begin(cairo, "Document", nullptr);
  {
    Drawing drawing(cairo);
    for (const LaidPage& page : laid.pages) {
      drawing.page(page);
      cairo_show_page(cairo);
    }
  }
  cairo_tag_end(cairo, "Document");
  const bool drawn = cairo_status(cairo) == CAIRO_STATUS_SUCCESS;
  cairo_destroy(cairo);
  cairo_surface_finish(surface);
  const bool finished = cairo_surface_status(surface) == CAIRO_STATUS_SUCCESS;
  cairo_surface_destroy(surface);
  return drawn && finished ? with_language(std::move(bytes), laid.language) : "";
}

}  // namespace rushlight
