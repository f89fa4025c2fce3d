#pragma once

#include <cstddef>
#include <cstdint>
#include <cstring>
#include <optional>
#include <string>
#include <string_view>

#include "finding/kinds.hpp"

namespace rushlight {

// What XML 1.0 (fifth edition) says about single characters.

/// One code point of UTF-8 text and how many bytes it takes. Size 0 means: these bytes are not UTF-8.
struct CodePoint {
  char32_t value;
  std::size_t size;
};

/// The code point that begins at `at`. Overlong forms, surrogates and values above U+10FFFF are not UTF-8.
CodePoint code_point_at(std::string_view bytes, std::size_t at);

/// How many code points of UTF-8 begin here.
inline std::size_t points_in(std::string_view text) {
  constexpr std::uint64_t kOfEach = 0x0101010101010101U;
  std::size_t points = text.size();
  std::size_t at = 0;
  // Eight bytes at a time: those that go on with a point begin with the bits 1 and 0.
  for (std::uint64_t eight = 0; at + sizeof eight <= text.size(); at += sizeof eight) {
    std::memcpy(&eight, text.data() + at, sizeof eight);
    points -= static_cast<std::size_t>(((eight >> 7U & ~eight >> 6U & kOfEach) * kOfEach) >> 56U);
  }
  for (; at < text.size(); ++at) points -= (static_cast<unsigned char>(text[at]) & 0xC0u) == 0x80u ? 1u : 0u;
  return points;
}

/// Blank, tab, line feed, carriage return.
constexpr bool is_blank(char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r'; }

/// As a word is read: blanks at the ends removed, runs of blanks made one.
std::string without_extra_blanks(std::string_view text);

/// A blank that XML does not know as one: it looks like a space in an editor, or like nothing at all.
bool is_foreign_blank(char32_t value);

/// The first of them in a number with its unit, as copied from a web page or made by a spreadsheet.
struct ForeignBlank {
  std::uint32_t points_before;
  BadNumber kind;
};
std::optional<ForeignBlank> foreign_blank_in(const std::string& text);

/// A quote sign that a word processor makes of a straight one.
bool is_curly_quote(char32_t value);

bool may_start_name(char32_t value);
bool may_continue_name(char32_t value);

/// What the character is called when it may not stand in a protocol: "NUL", "control character U+0007".
/// Stricter than XML: control characters U+007F to U+009F and signs that turn the reading direction are refused too,
/// since they could change what a terminal shows. Empty for every other character.
std::optional<std::string> name_if_forbidden(char32_t value);

}  // namespace rushlight
