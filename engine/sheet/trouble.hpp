#pragma once

#include "sheet/low_page.hpp"
#include "sheet/readings.hpp"

// Private to engine/sheet.

namespace rushlight {

/// The numbers of the boxes of what goes wrong and of signs, and of those that they lead to: measure, give sugar, and
/// wait and measure again.
struct TroubleNumbers {
  int trouble, signs, measure, give, again;
};

/// What stands beside them: the walk that gives sugar to an awake child, and a reading that is low and one that
/// is not.
struct TroubleBeside {
  TroubleNumbers numbers;
  const PaperWalk* giving;
  Value low, well;
};

/// What can go wrong on the way: each outcome of what is given by mouth, as the walk follows it until somebody is
/// called.
SheetBox trouble_box(const TroubleBeside& beside, Language language);

/// What is said where nothing goes further on paper: what to give, whom to call; the headline where there is neither.
std::vector<SheetLine> said_there(const PaperWalk& walk, bool headline_only);
/// After sugar the wait follows; where the reading is asked for at once, the reading.
int goes_on_in(const View& view, const TroubleNumbers& numbers);
const ShownAction* given_by_mouth(const View& view);

}  // namespace rushlight
