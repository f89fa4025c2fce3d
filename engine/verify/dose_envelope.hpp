#pragma once

#include <optional>
#include <string>
#include <vector>

#include "protocol/protocol.hpp"

namespace rushlight {

/// The least or the greatest amount of a dose, and a child who gets exactly that.
struct DoseEnd {
  Quantity amount;
  std::string child;  // "weight 16.667 kg, age 3 years"; names only what counts
  int row;            // of the dose, from 1
  Where where;
};

/// Between which amounts a dose lies, over every child that a child file can describe and every reading a meter can
/// show. Both ends are attained: an amount grows with the weight, the age, the total daily dose and the glucose as long
/// as one row counts, so its ends lie at the ends of the stretches that rows and bands make, and those are looked at
/// one and all. Insulin is taken as not withheld for any other reason than its floor, and rounded to the protocol's
/// step.
struct DoseEnvelope {
  DoseId dose;
  std::optional<DoseEnd> least, greatest;  // empty: withheld from everyone
};

/// One for each dose of a protocol that has passed the check, in file order.
std::vector<DoseEnvelope> dose_envelopes(const Protocol& protocol);

/// "`mini-glucagon`: 20 ug (age under 1 month) to 150 ug (age 15 years)"; "`extra-insulin`: always withheld".
std::string text_from_envelope(const Protocol& protocol, const DoseEnvelope& envelope);

}  // namespace rushlight
