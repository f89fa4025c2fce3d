#include "picture/svg.hpp"

#include "finding/markup.hpp"

namespace rushlight {
namespace {

// First the font that every width was reckoned with (picture/letters.hpp), then others that are no wider.
constexpr const char* kFonts = "DejaVu Sans, Verdana, Helvetica, Arial, sans-serif";

std::string number(Length length) {
  const Length size = length < 0 ? -length : length;
  std::string text = std::to_string(size / kPoint);
  if (size % kPoint != 0) {
    const std::string part = std::to_string(kPoint + size % kPoint).substr(1);
    text += "." + (part.back() == '0' ? part.substr(0, 1) : part);
  }
  return length < 0 ? "-" + text : text;
}

const char* id_of(Hatch hatch) {
  switch (hatch) {
    case Hatch::sparse:
      return "sparse";
    case Hatch::dense:
      return "dense";
    case Hatch::crossed:
      return "crossed";
    case Hatch::dots:
      return "dots";
    case Hatch::stripes:
      return "stripes";
    case Hatch::none:
      break;
  }
  return "";
}

constexpr const char* kPatterns =
    "<defs>\n"
    "<pattern id=\"sparse\" width=\"12\" height=\"12\" patternUnits=\"userSpaceOnUse\">"
    "<path d=\"M0 12L12 0\" stroke=\"#777\" stroke-width=\"0.5\"/></pattern>\n"
    "<pattern id=\"dense\" width=\"6\" height=\"6\" patternUnits=\"userSpaceOnUse\">"
    "<path d=\"M0 6L6 0\" stroke=\"#555\" stroke-width=\"0.6\"/></pattern>\n"
    "<pattern id=\"crossed\" width=\"6\" height=\"6\" patternUnits=\"userSpaceOnUse\">"
    "<path d=\"M0 6L6 0M0 0L6 6\" stroke=\"#333\" stroke-width=\"0.7\"/></pattern>\n"
    "<pattern id=\"dots\" width=\"7\" height=\"7\" patternUnits=\"userSpaceOnUse\">"
    "<circle cx=\"2\" cy=\"2\" r=\"0.8\" fill=\"#555\"/></pattern>\n"
    "<pattern id=\"stripes\" width=\"8\" height=\"8\" patternUnits=\"userSpaceOnUse\">"
    "<path d=\"M2 0V8\" stroke=\"#000\" stroke-width=\"3\"/></pattern>\n"
    "</defs>\n";

struct Drawn {
  static std::string rectangle(Spot corner, Length width, Length height, const std::string& rest) {
    return "<rect x=\"" + number(corner.x) + "\" y=\"" + number(corner.y) + "\" width=\"" + number(width) +
           "\" height=\"" + number(height) + "\" " + rest + "/>\n";
  }

  std::string operator()(const Area& box) const {
    const std::string line = box.border == 0 ? ""
                                             : "stroke=\"#000\" stroke-width=\"" + number(box.border) + "\"" +
                                                   (box.dashed ? " stroke-dasharray=\"4 2\"" : "");
    std::string text = rectangle(box.corner, box.width, box.height, "fill=\"" + std::string(box.tint) + "\" " + line);
    if (box.hatch != Hatch::none) {
      text += rectangle(box.corner, box.width, box.height, "fill=\"url(#" + std::string(id_of(box.hatch)) + ")\"");
    }
    if (box.twofold) {
      const Length in = box.border / 2 + 130;
      text += rectangle(Spot{box.corner.x + in, box.corner.y + in}, box.width - 2 * in, box.height - 2 * in,
                        "fill=\"none\" stroke=\"#000\" stroke-width=\"0.6\"");
    }
    return text;
  }

  std::string operator()(const Words& words) const {
    std::string text = "<text x=\"" + number(words.at.x) + "\" y=\"" + number(words.at.y) + "\" font-size=\"" +
                       number(words.size) + "\"";
    if (words.bold) text += " font-weight=\"bold\"";
    if (words.anchor == Anchor::middle) text += " text-anchor=\"middle\"";
    if (words.anchor == Anchor::end) text += " text-anchor=\"end\"";
    return text + ">" + escaped_for_markup(words.text) + "</text>\n";
  }

  std::string operator()(const Stroke& stroke) const {
    std::string path;
    for (const Spot& spot : stroke.through) path += (path.empty() ? "M" : "L") + number(spot.x) + " " + number(spot.y);
    std::string text = "<path d=\"" + path + "\" fill=\"none\" stroke=\"#000\" stroke-width=\"" +
                       number(stroke.weight) + "\"" + (stroke.dashed ? " stroke-dasharray=\"3 2\"" : "") + "/>\n";
    return stroke.arrow && stroke.through.size() > 1 ? text + head(stroke) : text;
  }

  // Strokes run along the page's edges, so a head points left, right, up or down.
  static std::string head(const Stroke& stroke) {
    const Spot end = stroke.through.back(), before = stroke.through[stroke.through.size() - 2];
    const Length along = 3 * kPoint, aside = 3 * kPoint / 2;
    const Length dx = end.x > before.x ? -along : (end.x < before.x ? along : 0);
    const Length dy = dx != 0 ? 0 : (end.y > before.y ? -along : along);
    const Length sx = dx != 0 ? 0 : aside, sy = dx != 0 ? aside : 0;
    return "<path d=\"M" + number(end.x) + " " + number(end.y) + "L" + number(end.x + dx + sx) + " " +
           number(end.y + dy + sy) + "L" + number(end.x + dx - sx) + " " + number(end.y + dy - sy) + "Z\"/>\n";
  }
};

}  // namespace

std::string svg_from(const Picture& picture) {
  const std::string width = number(picture.paper.width), height = number(picture.paper.height);
  std::string text = "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"" + width + "pt\" height=\"" + height +
                     "pt\" viewBox=\"0 0 " + width + " " + height + "\" role=\"img\" font-family=\"" + kFonts +
                     "\">\n" + "<title>" + escaped_for_markup(picture.title) + "</title>\n<desc>" +
                     escaped_for_markup(picture.told) + "</desc>\n" + kPatterns;
  text += Drawn::rectangle(Spot{0, 0}, picture.paper.width, picture.paper.height, "fill=\"#fff\"");
  for (const Shape& shape : picture.shapes) text += std::visit(Drawn{}, shape);
  return text + "</svg>\n";
}

}  // namespace rushlight
