#pragma once

#include <variant>

#include "measure/amounts.hpp"
#include "measure/glucose.hpp"
#include "measure/ketones.hpp"

namespace rushlight {

/// The caregiver looked and cannot say. Every question takes it; rules have their own line for it.
struct CantTell {
  friend constexpr bool operator==(CantTell, CantTell) = default;
};

/// One option of a choice, by its place.
struct Chosen {
  std::uint16_t option;
  friend constexpr bool operator==(Chosen, Chosen) = default;
};

struct Count {
  int number;
  friend constexpr bool operator==(Count, Count) = default;
};

/// How long ago something happened when it was said; `none` is "not in the last day".
struct Ago {
  Duration time;
  friend constexpr bool operator==(Ago, Ago) = default;
};
struct NotLately {
  friend constexpr bool operator==(NotLately, NotLately) = default;
};

/// What a fact can be. The last three come from the child file only.
using Value = std::variant<CantTell, Chosen, Count, Glucose, KetoneReading, Ago, NotLately, Age, BodyWeight, InsulinDose>;

}  // namespace rushlight
