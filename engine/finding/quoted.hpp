#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace rushlight {

/// Text from a file made fit for one line of a screen: control characters (line ends and terminal escapes among them)
/// and bytes that are no UTF-8 become one replacement sign each; tabs stay. One code point in gives one out.
std::string one_line(std::string_view text);

/// The clinic's own words between backticks, on one line; a backtick inside becomes an apostrophe, tabs become spaces,
/// and what is longer than 60 code points ends in "...".
std::string quoted(std::string_view text);

/// "`a`, `b` or `c`"; at most `most` of them, then "...".
std::string quoted_choice(const std::vector<std::string>& words, std::size_t most = 12);

/// "`a`, `b`, `c`", all of them.
std::string quoted_list(const std::vector<std::string>& words);

/// "`<step>`"
std::string quoted_element(std::string_view element);

/// How many code points `one_line` gives for this text.
std::size_t code_points(std::string_view text);

}  // namespace rushlight
