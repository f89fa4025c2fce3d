#pragma once

#include <cstdint>
#include <string>
#include <variant>
#include <vector>

namespace rushlight {

/// A length on paper, in hundredths of a point (a point is 1/72 inch).
using Length = std::int32_t;
inline constexpr Length kPoint = 100;

/// The smallest size of letters in a picture, on the paper it names.
inline constexpr Length kSmallestLetters = 6 * kPoint;

/// Paper on its long side: ISO 216, 297 mm x 210 mm and 420 mm x 297 mm.
struct Paper {
  const char* name;
  Length width, height;
};
inline constexpr Paper kA4{"A4", 84'189, 59'528};
inline constexpr Paper kA3{"A3", 119'055, 84'189};
inline constexpr Paper kA2{"A2", 168'378, 119'055};

struct Spot {
  Length x, y;
};

/// What an area is filled with. It has to be told apart on a black-and-white printer, so no two differ by colour alone.
enum class Hatch : std::uint8_t { none, sparse, dense, crossed, dots, stripes };

struct Area {
  Spot corner;
  Length width, height;
  Length border;  // its weight
  bool dashed = false;
  bool twofold = false;  // a second line inside the first
  Hatch hatch = Hatch::none;
  const char* tint = "none";  // repeats what the border and the words say
};

enum class Anchor : std::uint8_t { start, middle, end };

/// One line of text; `at` is on its base line.
struct Words {
  Spot at;
  Length size;
  std::string text;
  Length room;  // what it has to fit into
  bool bold = false;
  Anchor anchor = Anchor::start;
};

/// A line through these spots.
struct Stroke {
  std::vector<Spot> through;
  Length weight;
  bool arrow = false;  // at its end
  bool dashed = false;
};

using Shape = std::variant<Area, Words, Stroke>;

/// A picture as a value, drawn from the first shape to the last.
struct Picture {
  Paper paper;
  std::string title;  // for the one who cannot see it, with all that it says in sentences
  std::string told;
  std::vector<Shape> shapes;
};

}  // namespace rushlight
