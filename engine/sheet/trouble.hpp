#pragma once

#include "sheet/low_page.hpp"

// Private to engine/sheet.

namespace rushlight {

/// The numbers of the box itself, and of those that it leads to: measure, and wait and measure again.
struct TroubleNumbers {
  int own, measure, again;
};

/// What can go wrong on the way: each outcome of what is given by mouth, as the walk follows it until somebody is
/// called, and each sign of something worse that is no emergency. Signs of an emergency, and whom to call for anything
/// else, are put into `low`.
SheetBox trouble_box(const PaperWalk& start, const PaperWalk& giving, const Protocol& protocol, const Child& child,
                     TroubleNumbers numbers, LowPage& low);

}  // namespace rushlight
