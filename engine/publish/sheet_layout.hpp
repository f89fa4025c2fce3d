#pragma once

#include "publish/laid.hpp"
#include "publish/pen.hpp"
#include "sheet/sheet.hpp"

namespace rushlight {

/// The sheet on pages of this paper. The first holds what to do: the big question, the emergency, the low, whom to
/// call. A box is never split. What does not fit there stands on the next page, the least urgent first, and the number
/// of the page stands beside every arrow to it.
Laid laid_sheet(const Sheet& sheet, const PaperSize& paper, Pen& pen);

}  // namespace rushlight
