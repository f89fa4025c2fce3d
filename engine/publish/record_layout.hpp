#pragma once

#include <vector>

#include "publish/laid.hpp"
#include "publish/pen.hpp"
#include "record/night_record.hpp"

namespace rushlight {

/// A page for each episode, more where its timeline is long; before several of them a page of what they show. The
/// readings stand as numbers and as a small chart; no line is split over pages.
Laid laid_records(const std::vector<NightRecord>& nights, Language language, const PaperSize& paper, Pen& pen);

}  // namespace rushlight
