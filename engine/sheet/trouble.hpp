#pragma once

#include "sheet/low_page.hpp"

// Private to engine/sheet.

namespace rushlight {

/// What can go wrong on the way: each outcome of what is given by mouth, as the walk follows it until somebody is
/// called, and each sign of something worse that is no emergency. Signs of an emergency, and whom to call for anything
/// else, are put into `low`.
SheetBox trouble_box(const PaperWalk& start, const PaperWalk& giving, const Protocol& protocol, const Child& child,
                     int number, LowPage& low);

}  // namespace rushlight
