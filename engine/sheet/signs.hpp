#pragma once

#include "sheet/trouble.hpp"

// Private to engine/sheet.

namespace rushlight {

/// Each sign of something worse that does not end at the rescue medicine, with what follows when the child is low and
/// when not; what is an emergency stands first. The other signs, and whom to call for anything else, are put into `low`.
SheetBox signs_box(const PaperWalk& start, const Protocol& protocol, const Child& child, const TroubleBeside& beside,
                   LowPage& low);

}  // namespace rushlight
