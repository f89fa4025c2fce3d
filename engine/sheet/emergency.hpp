#pragma once

#include "sheet/paper_walk.hpp"

// Private to engine/sheet.

namespace rushlight {

struct EmergencyBoxes {
  SheetBox emergency;  // what to do at once, by somebody trained to give the rescue medicine and by anybody else
  SheetBox waiting;    // until help comes
};

/// As the walk says it for a child who will not wake and breathes, with the ways for one who does not, for medicine
/// that was given before, and for one who wakes.
EmergencyBoxes emergency_boxes(const PaperWalk& start, const Protocol& protocol, const Child& child, int number,
                               int number_waiting);

/// Whoever woke up after glucagon that somebody gave before gets nothing by mouth yet: the way to the emergency, before
/// any number. Empty where the walk treats such a child as any other.
std::optional<SheetWay> awake_after_glucagon(PaperWalk start, Language language, int number);

}  // namespace rushlight
