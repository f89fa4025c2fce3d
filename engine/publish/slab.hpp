#pragma once

#include <string>
#include <vector>

#include "publish/laid.hpp"
#include "publish/pen.hpp"

namespace rushlight {

/// Builds one box from the top down, at its own upper left corner, as wide as it will stand on the page.
class Slab {
 public:
  Slab(Pen& pen, std::string name, double width, double border);

  struct Style {
    Letters letters{kSmallestText, false};
    double indent = 0;
    double right = 0;  // kept free at the right edge
    const char* tag = "P";
    bool white = false;
  };
  /// A text, in as many lines as it takes.
  void words(const std::string& text, const Style& style);
  /// The same with a bold beginning.
  void words(const std::string& bold, const std::string& text, const Style& style);
  /// Texts side by side, each in as many lines as it takes in its own room; the next thing stands below the longest.
  struct Cell {
    double left, width;
    std::string bold, text;
  };
  void row(const std::vector<Cell>& cells, const Letters& letters, const char* tag = "P");
  /// A text behind a box to tick.
  void tick(const std::string& text, double indent = 0);
  /// The number of the box and its title; on black, where it has to be found first.
  void title(int number, const std::string& text, double size, bool on_black);
  /// A branch: what is seen in bold, what to do, and at the right edge the number of the box to go to. 0: nowhere.
  void branch(const std::string& when, const std::string& then, const std::string& to, double indent = 0);
  void gap(double height) { y_ += height; }
  void rule();
  /// Marks of one's own, at the present height.
  void put(PageBlock block, double height);
  double y() const { return y_; }
  double width() const { return width_; }

  /// The finished box; `border` is drawn around it.
  LaidBox box() const;
  double height() const { return y_ + kPad; }

  static constexpr double kPad = 3;

 private:
  double text_at(std::vector<Ink>& marks, const std::string& text, const Style& style, double top) {
    return text_at(marks, "", text, style, top);
  }
  double text_at(std::vector<Ink>& marks, const std::string& bold, const std::string& text, const Style& style,
                 double top);

  Pen& pen_;
  std::string name_;
  double width_, border_;
  double y_ = kPad;
  std::vector<PageBlock> blocks_;
};

/// The same box with its corner there.
LaidBox moved_to(LaidBox box, double x, double y);

}  // namespace rushlight
