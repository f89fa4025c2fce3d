#include "publish/svg_text.hpp"

#include <cmath>

#include "finding/markup.hpp"

namespace rushlight {
namespace {

constexpr double kBetweenPages = 20;

/// Hundredths are finer than a printer; no locale.
std::string number(double value) {
  const long hundredths = std::lround(value * 100);
  const long whole = std::labs(hundredths) / 100, part = std::labs(hundredths) % 100;
  std::string text = (hundredths < 0 ? "-" : "") + std::to_string(whole);
  if (part != 0) text += "." + std::string(part < 10 ? "0" : "") + std::to_string(part);
  return text;
}

const char* ink(bool white) { return white ? "#fff" : "#000"; }

std::string rectangle(const Frame& at, const std::string& rest) {
  return "<rect x=\"" + number(at.x) + "\" y=\"" + number(at.y) + "\" width=\"" + number(at.width) + "\" height=\"" +
         number(at.height) + "\" " + rest + "/>\n";
}

std::string path(const std::string& way, const std::string& rest) { return "<path d=\"" + way + "\" " + rest + "/>\n"; }

std::string arrow(const Ink& mark, bool down) {
  const double head = 5, x = mark.frame.x, y = mark.frame.y;
  const double to_x = down ? x : x + mark.frame.width, to_y = down ? y + mark.frame.height : y;
  const std::string tip = number(to_x) + " " + number(to_y);
  const auto spot = [](double at_x, double at_y) { return "L" + number(at_x) + " " + number(at_y); };
  return path("M" + number(x) + " " + number(y) + (down ? spot(to_x, to_y - head) : spot(to_x - head, to_y)),
              "stroke=\"#000\" stroke-width=\"" + number(mark.weight) + "\"") +
         path("M" + tip +
                  (down ? spot(to_x - head * 0.8, to_y - head * 1.4) + spot(to_x + head * 0.8, to_y - head * 1.4)
                        : spot(to_x - head * 1.4, to_y - head * 0.8) + spot(to_x - head * 1.4, to_y + head * 0.8)) +
                  "Z",
              "fill=\"#000\"");
}

std::string drawn(const Ink& mark) {
  const Frame& at = mark.frame;
  switch (mark.kind) {
    case Ink::Kind::text:
      if (mark.text.empty()) return "";
      return "<text x=\"" + number(at.x) + "\" y=\"" + number(at.y + mark.baseline) + "\" font-size=\"" +
             number(mark.size) + "\"" + (mark.bold ? " font-weight=\"bold\"" : "") +
             (mark.white ? " fill=\"#fff\"" : "") + " textLength=\"" + number(at.width) +
             "\" lengthAdjust=\"spacingAndGlyphs\">" + escaped_for_markup(mark.text) + "</text>\n";
    case Ink::Kind::outline:
    case Ink::Kind::check:
      return rectangle(at, "fill=\"none\" stroke=\"#000\" stroke-width=\"" + number(mark.weight) + "\"");
    case Ink::Kind::filled:
      return rectangle(at, std::string("fill=\"") + ink(mark.white) + "\"");
    case Ink::Kind::line:
      return path(
          "M" + number(at.x) + " " + number(at.y) + "L" + number(at.x + at.width) + " " + number(at.y + at.height),
          "stroke=\"#000\" stroke-width=\"" + number(mark.weight) + "\"");
    case Ink::Kind::disc:
      return "<rect x=\"" + number(at.x) + "\" y=\"" + number(at.y) + "\" width=\"" + number(at.width) +
             "\" height=\"" + number(at.height) + "\" rx=\"" + number(at.height / 2) + "\" fill=\"" + ink(mark.white) +
             "\"/>\n<text x=\"" + number(at.x + at.width / 2) +
             "\" y=\"" + number(at.y + at.height / 2 + mark.size * 0.35) + "\" font-size=\"" + number(mark.size) +
             "\" font-weight=\"bold\" text-anchor=\"middle\" fill=\"" + ink(!mark.white) + "\">" +
             escaped_for_markup(mark.text) + "</text>\n";
    case Ink::Kind::arrow_down:
      return arrow(mark, true);
    case Ink::Kind::arrow_right:
      return arrow(mark, false);
  }
  return "";
}

}  // namespace

std::string svg_from_laid(const Laid& laid) {
  const double pages = static_cast<double>(laid.pages.size());
  const double height = pages * laid.paper.height + (pages - 1) * kBetweenPages;
  std::string svg = "<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"document\" lang=\"" + laid.language +
                    "\" xml:lang=\"" + laid.language + "\" width=\"" + number(laid.paper.width) + "pt\" height=\"" +
                    number(height) + "pt\" viewBox=\"0 0 " + number(laid.paper.width) + " " + number(height) +
                    "\" font-family=\"Andika, 'DejaVu Sans', Verdana, sans-serif\">\n<title>" +
                    escaped_for_markup(laid.title) + "</title>\n";
  double top = 0;
  for (const LaidPage& page : laid.pages) {
    svg += "<g transform=\"translate(0 " + number(top) + ")\">\n" +
           rectangle({0, 0, laid.paper.width, laid.paper.height}, "fill=\"#fff\"");
    for (const LaidBox& box : page.boxes) {
      svg += "<g>\n";
      for (const PageBlock& block : box.blocks) {
        for (const Ink& mark : block.marks) svg += drawn(mark);
      }
      svg += "</g>\n";
    }
    svg += "</g>\n";
    top += laid.paper.height + kBetweenPages;
  }
  return svg + "</svg>\n";
}

}  // namespace rushlight
