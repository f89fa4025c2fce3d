#pragma once

#include "publish/laid.hpp"
#include "publish/printed.hpp"
#include "sheet/sheet.hpp"

namespace rushlight {

/// The sheet as a PDF, or as SVG with real text. Warns of letters that no font here has, and of a missing family.
Printed print_sheet(const Sheet& sheet, const PaperSize& paper, bool svg);

}  // namespace rushlight
