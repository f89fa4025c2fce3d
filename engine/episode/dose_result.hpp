#pragma once

#include <optional>
#include <string>
#include <vector>

#include "episode/scene.hpp"

namespace rushlight {

/// A dose worked out for one child, with the sum that a person can follow, or the reason why there is none.
struct DoseResult {
  std::optional<Quantity> amount;   // empty: withheld
  std::string working;              // "0.3 g/kg x 21 kg = 6.3 g, up to 7 g"; the reason when withheld
  std::string share;                // what that is of the thing in hand, "half of the vial"; may be empty
  std::vector<ThresholdId> used;    // the thresholds in the sum
  std::optional<SourceId> source;
  bool clinic_decides = false;      // withheld, and the clinic says how much
};

DoseResult dose_for(const Scene& scene, DoseId dose, Language language);
/// The dose of this action is withheld, and the clinic says how much.
bool is_for_the_clinic(const Scene& scene, const Action& action);

/// What to measure out so that it holds at least this much carbohydrate: the child's first food that the protocol allows,
/// then what can stand in. "75 mL of apple juice (5 x tablespoons)". Empty when nothing is allowed.
std::string food_for(const Scene& scene, Carbohydrate wanted, Language language);

/// Every allowed stand-in with its amount, joined by "; ".
std::string stand_ins_for(const Scene& scene, Carbohydrate wanted, Language language);

}  // namespace rushlight
