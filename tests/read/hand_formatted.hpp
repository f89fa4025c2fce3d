#pragma once

#include <random>
#include <string>
#include <vector>

#include "read/source_map.hpp"

namespace rushlight::tests {

/// Where the value of a number stands: its words between the quote signs, without the blanks at their ends.
struct WrittenValue {
  std::string threshold;
  std::optional<std::size_t> band;  // from the first
  std::string name;                 // value, mg-dl, mmol-l
  Span span;
};

struct HandFormatted {
  std::string bytes;
  std::vector<WrittenValue> values;
};

/// A protocol as some hand could have written it: the words of `protocol`, between line ends, blanks, tabs, quote
/// signs, comments, orders of attributes and a byte order mark as the dice fall. The places of the values are noted
/// while it is written, so they owe nothing to the reader.
HandFormatted hand_formatted(const std::string& protocol, std::mt19937& dice);

}  // namespace rushlight::tests
