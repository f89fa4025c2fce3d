#pragma once

#include <cstdint>
#include <variant>
#include <vector>

#include "finding/finding.hpp"
#include "protocol/ids.hpp"

namespace rushlight {

enum class Comparison : std::uint8_t { below, at_least, above, at_most };

/// A known value compared with a threshold; never holds for "can't tell".
struct Compares {
  FactId fact;
  Comparison comparison;
  ThresholdId limit;
};

/// One of the options (bit n is option n), or "can't tell" (the last bit). For numbers only "can't tell" can be asked so.
struct Is {
  FactId fact;
  std::uint64_t options;
};
inline constexpr std::uint64_t kUnknownBit = std::uint64_t{1} << 63;

struct CountedAtLeast {
  CounterId counter;
  ThresholdId limit;
};

/// The action was given, wholly or in part, at some time in this episode.
struct WasGiven {
  ActionId action;
};

/// From, up to but not including, on the local clock; may pass midnight.
struct WithinClock {
  ThresholdId from, up_to;
};

/// How a fact stands to what it was when its mark was set; one bit each, in the order of Change.
enum class Change : std::uint8_t { fallen, stayed, risen, unknown };
struct HasChanged {
  MarkId mark;
  std::uint8_t changes;
};

struct Condition {
  std::variant<Compares, Is, CountedAtLeast, WasGiven, WithinClock, HasChanged> test;
  Where where;
};

/// All must hold; none means "always".
using Conditions = std::vector<Condition>;

}  // namespace rushlight
