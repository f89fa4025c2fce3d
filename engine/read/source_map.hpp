#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "finding/finding.hpp"

namespace rushlight {

// Where every word of an XML file stands. The tree library knows lines but no columns and no bytes; findings need
// columns, and changing one value without touching another byte needs bytes.

/// From `begin` up to but not including `end`, in bytes from the start of the file (a byte order mark counts).
struct Span {
  std::size_t begin, end;
  friend bool operator==(const Span&, const Span&) = default;
};

/// Line and column from 1, in code points; a byte order mark has no column. Never longer than its line.
struct Place {
  std::uint32_t line, column, length;
  friend bool operator==(const Place&, const Place&) = default;
};

/// `value` is all that stands between the quote signs. `value_place` is its part without blanks at the ends; of an
/// empty or blank value it is the value with its quote signs, so that there is something to underline.
struct MappedAttribute {
  std::string name;
  Span name_span;
  Place name_place;
  Span value;
  Place value_place;
};

/// Text between two tags or comments, without the blanks at its ends. Blank text is not kept.
struct MappedText {
  Span span;
  Place place;
  bool after_blank;  // a blank stands between it and what comes before
};

struct MappedElement {
  std::string name;
  std::optional<std::size_t> parent;  // its place in the map; empty for the outermost element
  Span name_span;                     // in the opening tag
  Place name_place;
  Span tag;      // the opening tag with its angle brackets
  Span content;  // between the tags; empty, at the tag's end, for <a/>
  std::vector<MappedAttribute> attributes;
  std::vector<MappedText> texts;
  Place text_place;  // of all the texts together; nothing without any
};

/// Elements in document order, the order of a depth-first walk through the tree.
struct SourceMap {
  std::vector<MappedElement> elements;
};

/// Turns bytes into lines and columns. A line ends at LF, CR LF or a lone CR. Keeps no copy: the text must outlive it.
class Lines {
 public:
  explicit Lines(std::string_view text);

  /// The place of a span; its length stops at the end of its first line.
  Place place_of(Span span) const;
  /// The same; `near` remembers the line, for whoever asks from the beginning of a file to its end.
  Place place_of(Span span, std::size_t& near) const;

  /// Where a place begins, in bytes from the start of the file. The end of the file for a place behind it.
  std::size_t byte_at(std::uint32_t line, std::uint32_t column) const;

  /// The line as it stands in the file, without its end. Empty when the file has no such line.
  std::optional<std::string> line(std::uint32_t number) const;

 private:
  void find_starts();
  void find_plain_lines();
  bool holds(std::size_t index, std::size_t byte) const;
  std::size_t line_of(std::size_t byte) const;
  std::size_t points_before(std::size_t byte) const;
  std::size_t points_between(std::size_t begin, std::size_t end) const;
  std::size_t end_of_line(std::size_t index) const;

  std::string_view text_;
  std::vector<std::size_t> starts_;        // of each line
  std::vector<bool> plain_;                // of each line: each of its bytes is a code point
  std::vector<std::size_t> block_points_;  // code points before every block of kBlock bytes
};

/// The place with its file, as findings want it.
Where where_of(const Place& place, const FileName& file);

}  // namespace rushlight
