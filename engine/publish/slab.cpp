#include "publish/slab.hpp"

#include <algorithm>

namespace rushlight {
namespace {

constexpr double kTick = 9;  // the side of a box to tick
constexpr double kTickRoom = 14;
constexpr double kDisc = 15;      // across
constexpr double kDigit = 6;      // a second one
constexpr double kTarget = 34;    // an arrow and a disc
constexpr double kInside = 5;     // between the frame and the text
constexpr double kBetween = 0.8;  // after a paragraph

double disc_width(const std::string& number) { return kDisc + kDigit * static_cast<double>(number.size() - 1); }

bool ends_itself(const std::string& text) { return text.empty() || text.back() == '.' || text.back() == '?'; }

}  // namespace

Slab::Slab(Pen& pen, std::string name, double width, double border)
    : pen_(pen), name_(std::move(name)), width_(width), border_(border) {}

double Slab::text_at(std::vector<Ink>& marks, const std::string& bold, const std::string& text, const Style& style,
                     double top) {
  const double room = width_ - 2 * kInside - style.indent - style.right;
  double above = 0, below = 0;
  std::size_t first = marks.size();
  for (const PenLine& line : pen_.lines(bold, text, style.letters, room)) {
    above = std::max(above, line.above);
    below = std::max(below, line.below);
    Ink mark{Ink::Kind::text, {kInside + style.indent + line.left, top, line.width, 0}, line.text};
    mark.size = style.letters.size;
    mark.bold = line.bold;
    mark.white = style.white;
    marks.push_back(std::move(mark));
    if (!line.ends_line) continue;
    for (; first < marks.size(); ++first) {
      marks[first].baseline = above;
      marks[first].frame.height = above + below;
    }
    top += above + below;
    above = below = 0;
  }
  return top;
}

void Slab::words(const std::string& text, const Style& style) {
  if (!text.empty()) words("", text, style);
}

void Slab::words(const std::string& bold, const std::string& text, const Style& style) {
  PageBlock block{style.tag, {}};
  y_ = text_at(block.marks, bold, text, style, y_) + kBetween;
  blocks_.push_back(std::move(block));
}

void Slab::row(const std::vector<Cell>& cells, const Letters& letters, const char* tag) {
  PageBlock block{tag, {}};
  double bottom = y_;
  for (const Cell& cell : cells) {
    if (cell.bold.empty() && cell.text.empty()) continue;
    Style style;
    style.letters = letters;
    style.indent = cell.left;
    style.right = width_ - 2 * kInside - cell.left - cell.width;
    bottom = std::max(bottom, text_at(block.marks, cell.bold, cell.text, style, y_));
  }
  blocks_.push_back(std::move(block));
  y_ = bottom + kBetween;
}

void Slab::tick(const std::string& text, double indent) {
  PageBlock block{"P", {}};
  Ink box{Ink::Kind::check, {kInside + indent, y_ + 3, kTick, kTick}};
  box.weight = 1.2;
  block.marks.push_back(box);
  Style style;
  style.indent = indent + kTickRoom;
  y_ = text_at(block.marks, text, style, y_) + kBetween;
  blocks_.push_back(std::move(block));
}

void Slab::title(int number, const std::string& text, double size, bool on_black) {
  PageBlock block{"H2", {}};
  Style style;
  style.letters = {size, true};
  style.indent = number > 0 ? disc_width(std::to_string(number)) + 6 : 0;
  style.white = on_black;
  const double top = y_;
  std::vector<Ink> words;
  const double bottom = std::max(text_at(words, text, style, on_black ? y_ : y_ + 0.5), top + kDisc);
  if (on_black) block.marks.push_back({Ink::Kind::filled, {0, 0, width_, bottom + 2}});
  if (number > 0) {
    Ink disc{Ink::Kind::disc, {kInside, top + 1, disc_width(std::to_string(number)), kDisc}, std::to_string(number)};
    disc.size = 13;
    disc.white = on_black;
    block.marks.push_back(disc);
  }
  for (Ink& mark : words) block.marks.push_back(std::move(mark));
  blocks_.push_back(std::move(block));
  y_ = bottom + (on_black ? 4 : 1);
}

void Slab::branch(const std::string& when, const std::string& then, const std::string& to, double indent) {
  PageBlock block{"P", {}};
  Style style;
  style.indent = indent;
  const double top = y_, edge = width_ - kInside;
  const std::string lead = then.empty() || ends_itself(when) ? when : when + ":";
  double target = top;  // upper edge of the disc
  y_ = text_at(block.marks, lead, then, style, top);
  if (!to.empty() && !block.marks.empty()) {
    const Ink& last = block.marks.back();
    const double target_room = kTarget + disc_width(to) - kDisc;
    if (last.frame.x + last.frame.width > edge - target_room - 4) {
      block.marks.clear();
      style.right = target_room + 4;
      y_ = text_at(block.marks, lead, then, style, top);
    }
    target = std::max(top, block.marks.back().frame.y - 1);  // behind the last word: the finger reads to the end
    y_ = std::max(y_, target + kDisc);
    const double left = edge - disc_width(to);
    Ink arrow{Ink::Kind::arrow_right, {left - 17, target + kDisc / 2, 14, 0}};
    arrow.weight = 1.6;
    block.marks.push_back(arrow);
    Ink disc{Ink::Kind::disc, {left, target, disc_width(to), kDisc}, to};
    disc.size = 13;
    block.marks.push_back(disc);
  }
  y_ += kBetween;
  blocks_.push_back(std::move(block));
}

void Slab::rule() {
  Ink line{Ink::Kind::line, {0, y_ + 1, width_, 0}};
  line.weight = 0.8;
  blocks_.push_back({"Artifact", {line}});
  y_ += 3;
}

void Slab::put(PageBlock block, double height) {
  for (Ink& mark : block.marks) {
    mark.frame.x += kInside;
    mark.frame.y += y_;
  }
  blocks_.push_back(std::move(block));
  y_ += height;
}

LaidBox Slab::box() const {
  LaidBox box{name_, {0, 0, width_, height()}, {}};
  if (border_ > 0) {
    Ink frame{Ink::Kind::outline, {0, 0, width_, height()}};
    frame.weight = border_;
    box.blocks.push_back({"Artifact", {frame}});
  }
  box.blocks.insert(box.blocks.end(), blocks_.begin(), blocks_.end());
  return box;
}

LaidBox moved_to(LaidBox box, double x, double y) {
  box.frame.x += x;
  box.frame.y += y;
  for (PageBlock& block : box.blocks) {
    for (Ink& mark : block.marks) {
      mark.frame.x += x;
      mark.frame.y += y;
    }
  }
  return box;
}

}  // namespace rushlight
