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

/// The way that whoever sees `sight` follows, cut behind its first `said` lines, where another finger-prick decides:
/// below it what follows when that one is low, and, under `if_not`, its other lines.
void fork(std::vector<SheetWay>& ways, const SheetSight& sight, std::size_t said, SheetWay if_low, std::string if_not);

/// The same to do, and the same box to go on with.
bool lead_alike(const SheetWay& one, const SheetWay& other);

}  // namespace rushlight
