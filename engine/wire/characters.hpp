#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace rushlight {

/// The place (in bytes) of the first byte that is no UTF-8; empty when all of it is.
std::optional<std::size_t> first_not_utf8(std::string_view text);

/// A character that must not reach a terminal or a page: it moves the cursor, hides text or turns its direction.
struct Forbidden {
  std::size_t offset;
  std::string name;  // "U+001B"
};

/// The first such character of valid UTF-8 text. In a whole file line ends and tabs are allowed, in one text of it they
/// are not.
enum class LineEnds : bool { refused, allowed };
std::optional<Forbidden> first_forbidden(std::string_view text, LineEnds line_ends);

/// How many code points valid UTF-8 text has.
std::size_t length_of(std::string_view text);

}  // namespace rushlight
