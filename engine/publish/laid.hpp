#pragma once

#include <string>
#include <vector>

namespace rushlight {

// All lengths on paper are in points (1/72 inch), from the upper left corner down.

struct PaperSize {
  const char* name;
  double width, height;
};
inline constexpr PaperSize kA4Upright{"A4", 595.28, 841.89};  // ISO 216: 210 mm x 297 mm
inline constexpr PaperSize kLetter{"Letter", 612.0, 792.0};   // ANSI: 8.5 in x 11 in

/// Nothing on a sheet is smaller, and nothing on a record for the clinic.
inline constexpr double kSmallestText = 12.0;
inline constexpr double kSmallestOnRecord = 8.0;

struct Frame {
  double x, y, width, height;
};

/// One thing on the page. A text is one line; `frame` is its room on the page, `width` of it as measured.
struct Ink {
  enum class Kind : std::uint8_t { text, outline, filled, line, check, disc, arrow_down, arrow_right } kind;
  Frame frame;
  std::string text{};
  double size = 0;      // of letters
  double baseline = 0;  // down from the frame's upper edge
  bool bold = false;
  bool white = false;
  double weight = 1;  // of lines
};

/// Marks that stay on one page, as one element of the document's structure.
struct PageBlock {
  std::string tag;  // "H1", "H2", "P"
  std::vector<Ink> marks;
};

/// What is never split: one box of the sheet, with its frame on the page.
struct LaidBox {
  std::string name;
  Frame frame;
  std::vector<PageBlock> blocks;
};

struct LaidPage {
  std::vector<LaidBox> boxes;
};

struct Laid {
  PaperSize paper;
  std::string title;
  std::string language;  // "en"
  std::string date;      // of making, for the file
  std::vector<LaidPage> pages;
};

}  // namespace rushlight
