#pragma once

#include <vector>

#include "publish/laid.hpp"
#include "publish/pen.hpp"
#include "record/night_record.hpp"

namespace rushlight {

/// A page for each episode, in the largest letters with which it fits; where it fits with none, the first page still holds
/// the whole summary and the timeline goes on behind it. Before several episodes a page of what they show. No line is split
/// over pages.
Laid laid_records(const std::vector<NightRecord>& nights, Language language, const PaperSize& paper, Pen& pen);

}  // namespace rushlight
