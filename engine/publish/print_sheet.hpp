#pragma once

#include "publish/laid.hpp"
#include "publish/printed.hpp"
#include "record/night_record.hpp"
#include "sheet/sheet.hpp"

namespace rushlight {

/// The sheet as a PDF, or as SVG with real text. Warns of letters that no font here has, and of a missing family.
Printed print_sheet(const Sheet& sheet, const PaperSize& paper, bool svg);

/// The records as a PDF, with the same warnings.
Printed print_records(const std::vector<NightRecord>& nights, Language language, const PaperSize& paper);

}  // namespace rushlight
