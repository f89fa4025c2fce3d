#pragma once

#include <string>
#include <vector>

#include "verify/compare.hpp"
#include "verify/step_changes.hpp"

// Private to engine/verify: where two dose tables give other amounts.

namespace rushlight {

struct DoseChange {
  Difference::Turn turn;       // `less` where any child is given less, or nothing, who was given something
  std::vector<Cases> regions;  // exact, in one unit
  bool too_many = false;       // more than are looked through: the regions hold all, and more
  std::string was, now;        // "4 g to 15 g; weight 40 kg: 12 g"
  bool in_both_units = false;  // it hangs on no glucose: but for the unit of the regions the other is the same
};

/// Empty when both give everyone the same. Where an amount depends on one number at most, the regions are exact; where
/// on more, a region is named as soon as the amounts may differ anywhere in it, and `too_many` says so.
std::optional<DoseChange> dose_change(const SideBySide& sides, const DosePair& pair, GlucoseUnit unit);

}  // namespace rushlight
