#pragma once

#include <functional>
#include <optional>

#include "protocol/protocol.hpp"

// Private to engine/verify.

namespace rushlight {

/// What the amount of a dose is made of, beside the file.
struct DoseGrounds {
  Context context;
  std::optional<InsulinDose> daily_dose;
  std::optional<Decimal> glucose;  // in this unit
  Decimal factor;                  // the child's correction factor, in this unit
  GlucoseUnit unit;
};

/// The amount that a row gives, rounded and bounded; empty when it is withheld, when something is not known, and of
/// insulin when less than a step is left. `other` gives the amounts of the doses it is made of. This is the sum of
/// episode/dose_result.cpp once more, without its words; tests/verify holds the two equal.
std::optional<Decimal> amount_of_row(const Protocol& protocol, const Dose& dose, const DoseRow& row,
                                     const DoseGrounds& grounds,
                                     const std::function<std::optional<Decimal>(DoseId)>& other);

}  // namespace rushlight
