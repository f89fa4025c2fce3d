#include "publish/pen.hpp"

#include <pango/pangocairo.h>

#include <algorithm>
#include <cstring>
#include <limits>
#include <memory>

namespace rushlight {
namespace {

struct Free {
  void operator()(PangoLayout* layout) const { g_object_unref(layout); }
  void operator()(PangoFontDescription* description) const { pango_font_description_free(description); }
};

constexpr double kSmallest = 12;
// Of the size of its letters, what a line of the family needs above and below its base line: an accented capital, a
// letter with a tail. Measured.
constexpr double kAbove = 0.92, kBelow = 0.25;

std::unique_ptr<PangoFontDescription, Free> description_of(const Letters& letters) {
  std::unique_ptr<PangoFontDescription, Free> description(pango_font_description_new());
  pango_font_description_set_family(description.get(), kFamily);
  pango_font_description_set_weight(description.get(), letters.bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
  pango_font_description_set_absolute_size(description.get(), letters.size * PANGO_SCALE);
  return description;
}

double in_points(int units) { return static_cast<double>(units) / PANGO_SCALE; }

PenLine as_set(std::string text, bool bold, double size, double left, const PangoRectangle& ink,
               const PangoRectangle& logical) {
  // Letters of other scripts may be taller than the font's own.
  const double above = std::max(in_points(PANGO_ASCENT(ink)), size * kAbove);
  const double below = std::max(in_points(PANGO_DESCENT(ink)), size * kBelow);
  const double width = in_points(std::max(logical.width, ink.x + ink.width));
  return {std::move(text), bold, left, width, true, above, below};
}

void add(PangoAttrList* list, PangoAttribute* attribute, std::size_t from, std::size_t to) {
  attribute->start_index = static_cast<guint>(from);
  attribute->end_index = static_cast<guint>(to);
  pango_attr_list_insert(list, attribute);
}

/// A number and what follows it, "7 g", "5 x tablespoon" and "555 0102": parted between two lines they are read wrong.
/// Not behind a clock time, and no more than a telephone number takes.
std::vector<std::pair<std::size_t, std::size_t>> kept_together(const std::string& text) {
  constexpr std::size_t kMost = 18;
  std::vector<std::pair<std::size_t, std::size_t>> kept;
  for (std::size_t at = 1; at + 1 < text.size(); ++at) {
    const auto number_before = [&](std::size_t end) { return end > 0 && text[end - 1] >= '0' && text[end - 1] <= '9'; };
    const bool times = at >= 3 && text.compare(at - 2, 2, " x") == 0 && number_before(at - 2);  // "5 x tablespoon"
    if (text[at] != ' ' || (!times && !number_before(at)) || (at >= 3 && text[at - 3] == ':')) continue;
    const std::size_t end = std::min(text.find(' ', at + 1), text.size());
    std::size_t from = text.rfind(' ', at - 1);
    from = from == std::string::npos ? 0 : from + 1;
    if (!kept.empty() && kept.back().second >= from) from = kept.back().first;
    if (end - from > kMost) continue;
    if (!kept.empty() && kept.back().first == from) kept.pop_back();
    kept.emplace_back(from, end);
  }
  return kept;
}

}  // namespace

Pen::Pen() {
  PangoContext* context = pango_font_map_create_context(pango_cairo_font_map_get_default());
  pango_context_set_base_dir(context, PANGO_DIRECTION_LTR);
  pango_context_set_round_glyph_positions(context, FALSE);
  context_ = context;
}

Pen::~Pen() { g_object_unref(context_); }

bool Pen::has_family() const {
  const auto description = description_of({kSmallest, false});
  PangoFont* font = pango_font_map_load_font(pango_cairo_font_map_get_default(), static_cast<PangoContext*>(context_),
                                             description.get());
  if (font == nullptr) return false;
  PangoFontDescription* found = pango_font_describe(font);
  const char* family = pango_font_description_get_family(found);
  const bool same = family != nullptr && std::strcmp(family, kFamily) == 0;
  pango_font_description_free(found);
  g_object_unref(font);
  return same;
}

PenLine Pen::measured(std::string text, const Letters& letters, double left) {
  // Measured as it will be drawn: alone.
  const std::unique_ptr<PangoLayout, Free> alone(pango_layout_new(static_cast<PangoContext*>(context_)));
  const auto description = description_of(letters);
  pango_layout_set_font_description(alone.get(), description.get());
  pango_layout_set_auto_dir(alone.get(), FALSE);
  pango_layout_set_text(alone.get(), text.c_str(), static_cast<int>(text.size()));
  PangoRectangle ink, logical;
  pango_layout_line_get_extents(pango_layout_get_line_readonly(alone.get(), 0), &ink, &logical);
  return as_set(std::move(text), letters.bold, letters.size, left, ink, logical);
}

const std::vector<PenLine>& Pen::lines(const std::string& bold, const std::string& text, const Letters& letters,
                                       double width) {
  // A page is tried in several ways before one fits; the same words are set once.
  std::list<Setting>& settings = set_[std::make_tuple(bold, text, letters.size, letters.bold)];
  const int units = static_cast<int>(width * PANGO_SCALE);
  for (const Setting& known : settings) {
    if (known.from <= units && units <= known.to) return known.lines;
  }
  return settings.emplace_back(broken(bold, text, letters, units)).lines;
}

Pen::Setting Pen::broken(const std::string& bold, const std::string& text, const Letters& letters, int width) {
  const std::unique_ptr<PangoLayout, Free> layout(pango_layout_new(static_cast<PangoContext*>(context_)));
  const auto description = description_of(letters);
  const std::string all = bold.empty() || text.empty() ? bold + text : bold + " " + text;
  pango_layout_set_font_description(layout.get(), description.get());
  pango_layout_set_auto_dir(layout.get(), FALSE);
  pango_layout_set_wrap(layout.get(), PANGO_WRAP_WORD_CHAR);
  pango_layout_set_width(layout.get(), width);
  pango_layout_set_text(layout.get(), all.c_str(), static_cast<int>(all.size()));
  PangoAttrList* attributes = pango_attr_list_new();
  if (!bold.empty()) add(attributes, pango_attr_weight_new(PANGO_WEIGHT_BOLD), 0, bold.size());
  for (const auto& [from, to] : kept_together(all)) add(attributes, pango_attr_allow_breaks_new(FALSE), from, to);
  pango_layout_set_attributes(layout.get(), attributes);
  pango_attr_list_unref(attributes);
  missing_ += pango_layout_get_unknown_glyphs_count(layout.get());
  Setting setting{0, width, {}};
  std::vector<PenLine>& lines = setting.lines;
  int count = 0;
  for (const GSList* each = pango_layout_get_lines_readonly(layout.get()); each != nullptr; each = each->next) {
    auto* line = static_cast<PangoLayoutLine*>(each->data);
    PangoRectangle ink, logical;
    pango_layout_line_get_extents(line, &ink, &logical);
    setting.from = std::max(setting.from, logical.width);
    ++count;
    const auto start = static_cast<std::size_t>(line->start_index);
    std::string words = all.substr(start, static_cast<std::size_t>(line->length));
    while (!words.empty() && words.back() == ' ') words.pop_back();
    const std::size_t turn = bold.size() <= start ? 0 : std::min(words.size(), bold.size() - start);
    if (turn > 0 && turn < words.size()) {
      // The letters change within the line: each part as it will be drawn, alone.
      lines.push_back(measured(words.substr(0, turn), {letters.size, true}, 0));
      lines.back().ends_line = false;
      const double left = lines.back().width;
      lines.push_back(measured(words.substr(turn), letters, left));
      continue;
    }
    lines.push_back(as_set(std::move(words), letters.bold || turn > 0, letters.size, 0, ink, logical));
  }
  setting.from = std::min(setting.from, width);  // a letter may be wider than the page
  if (count == 1) setting.to = std::numeric_limits<int>::max();
  return setting;
}

}  // namespace rushlight
