#pragma once

#include <cstdint>

namespace rushlight {

/// A place in one list of a protocol: small, compared by value, and never mixed up with a place in another list.
template <class Noun>
struct Id {
  std::uint16_t index;
  friend constexpr bool operator==(Id, Id) = default;
};

using SourceId = Id<struct Source>;
using ThresholdId = Id<struct Threshold>;
using FactId = Id<struct Fact>;
using DoseId = Id<struct Dose>;
using TimerId = Id<struct Timer>;
using CounterId = Id<struct Counter>;
using StepId = Id<struct Step>;
using ActionId = Id<struct Action>;
using WatchId = Id<struct Watch>;
using MarkId = Id<struct Mark>;

}  // namespace rushlight
