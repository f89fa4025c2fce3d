#pragma once

#include "sheet/paper_walk.hpp"

// Private to engine/sheet.

namespace rushlight {

/// A page for a protocol that asks more than paper can follow: what is seen, one thing at a time in a child in whom
/// nothing else is wrong, and whom to call for it. What leads to no call is not on the page.
SheetPage further_page(const Protocol& protocol, const Child& child, Moment at);

}  // namespace rushlight
