#pragma once

#include <optional>
#include <string>

#include "episode/scene.hpp"

namespace rushlight {

/// Why no insulin dose may be shown now, whatever the rows of its table say; empty when one may.
/// Insulin is shown only where the clinic switched it on in a protocol that is approved and in date, for a child with a
/// current total daily dose and insulin of 100 units in a millilitre, never where a pump corrects by itself, never within
/// the no-stacking time of the last rapid-acting dose, never when somebody else may have given some, and never below the
/// glucose floor or on an old reading. What is not known withholds.
struct Withholding {
  std::string reason;
  bool clinic_decides;  // no reason to wait or to measure first: call for the dose
  bool table_first = false;  // where the table has no dose anyway, that is what there is to say
};
std::optional<Withholding> insulin_withheld(const Scene& scene, const Dose& dose, Language language);

/// Nothing went in: the dose was none.
bool is_nothing(const std::optional<Quantity>& amount);

/// Rounded down to this: the step of the child's own pen or pump; where the child file has none, the protocol's.
InsulinDose insulin_step_for(const Scene& scene, const Dose& dose);

/// When insulin last went in during this episode, a wrong dose too; empty when none did.
std::optional<Instant> insulin_of_this_night(const Protocol& protocol, const Episode& episode);

/// The instant of the last rapid-acting insulin: given in this episode, written down before it, or told. Empty when nobody
/// can say; an instant more than a day back stands for "not in the last day".
std::optional<Instant> last_rapid_insulin(const Scene& scene);

}  // namespace rushlight
