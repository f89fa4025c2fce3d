#pragma once

#include "sheet/paper_walk.hpp"

// Private to engine/sheet.

namespace rushlight {

/// A reading that is low and one that is not, and the boxes of the page for a low.
struct LaterReadings {
  Value low, well;
  int give, again;
};

/// When to look again tonight, from where the low is over; what another low is then, until the one for which somebody
/// is called; and what follows when it is not low. Empty when the hour decides how long to wait: paper cannot.
std::optional<SheetBox> later_box(const PaperWalk& walk, int number, const LaterReadings& readings, Language language);

}  // namespace rushlight
