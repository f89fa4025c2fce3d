#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace rushlight {

/// The text as a terminal may get it: one line, valid UTF-8, nothing a terminal would obey.
/// Line breaks and tabs become blanks; other control characters (C0, DEL, C1) and bytes that are not UTF-8 become "?";
/// characters that only steer the reading direction or hide (bidi marks, zero width, tags) are dropped.
std::string cleaned(std::string_view text);

/// How many columns a cleaned text takes: combining marks none, East Asian wide characters and pictures two.
int columns_of(std::string_view text);

/// The text broken into lines of at most `width` columns at blanks; a longer word is cut. `lead` stands in front of the
/// first line, and the others are indented as deep. Never empty, never drops a word. A width below 1 counts as 1.
std::vector<std::string> wrapped(std::string_view lead, std::string_view text, int width);

/// As much of a cleaned text as fits into `width` columns.
std::string cut(std::string_view text, int width);

/// The text with its small letters made large: ASCII and the Spanish ones.
std::string in_capitals(std::string_view text);

/// The text with its first letter made large.
std::string sentence_case(std::string_view text);

/// The text with its large letters made small and the accents of Spanish vowels taken off, for comparing what was
/// typed.
std::string folded_letters(std::string_view text);

}  // namespace rushlight
