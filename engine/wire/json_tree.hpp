#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "finding/finding.hpp"

namespace rushlight {

struct JsonMember;

/// A JSON value with its place in the text. A number stays as it was written: only measure/decimal reads numbers.
struct JsonNode {
  enum class Kind : std::uint8_t { null, boolean, number, text, list, object };
  Kind kind = Kind::null;
  std::string text;  // the decoded text; for numbers, true, false and null the word as written
  Where where;       // of a text: what stands between the quote signs; of an object or list: its opening bracket
  std::vector<JsonNode> items;
  std::vector<JsonMember> members;

  /// The member of that name; null when there is none.
  const JsonNode* find(std::string_view key) const;
};

struct JsonMember {
  std::string key;
  Where key_where;
  JsonNode value;
};

struct JsonLimits {
  std::size_t bytes;
  int depth;
};

/// One line of events: a long note and every answer of a protocol fit many times over.
inline constexpr JsonLimits kEventLimits{64 * 1024, 8};
/// A child file: a hundred foods fit.
inline constexpr JsonLimits kChildLimits{256 * 1024, 8};

/// Reads one JSON value and nothing after it. Refuses what a lenient reader would take in silence: bytes that are no
/// UTF-8, control characters (also escaped ones), a repeated key, text beyond the limits. A byte order mark in front is
/// skipped. `first_line` is the line number of the first line, for texts that are one line of many.
Read<JsonNode> json_from_text(std::string_view bytes, const std::string& file, const JsonLimits& limits,
                              std::uint32_t first_line = 1);

}  // namespace rushlight
