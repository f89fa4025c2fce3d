#pragma once

#include "sheet/readings.hpp"

// Private to engine/sheet.

namespace rushlight {

/// The ways of one box with their words. A stretch of readings that leads to one place however the child looks is one
/// way, and so are stretches beside each other that lead to one place. First those for every child, then for one who
/// looks well, then for one who does not; without a reading last.
std::vector<SheetWay> joined(std::vector<SheetWay> ways, Language language);

/// Without a reading it is the same at a recheck as at the first time, where that leads to the same places: one way to
/// the box of the first time.
void refer_to_first(std::vector<SheetWay>& ways, const std::vector<ReadingGroup>& first,
                    const std::vector<ReadingGroup>& again, int number, Language language);

/// Whoever sees `narrow` follows a way of `wide`.
bool takes_in(const SheetSight& wide, const SheetSight& narrow);

/// The same to do, and the same box to go on with.
bool lead_alike(const SheetWay& one, const SheetWay& other);

}  // namespace rushlight
