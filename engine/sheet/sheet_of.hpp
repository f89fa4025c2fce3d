#pragma once

#include <optional>

#include "sheet/sheet.hpp"
#include "verify/check.hpp"

namespace rushlight {

/// The steps of a low on paper, for this child as of this day, in the child's language. Derived by asking the engine
/// what it says after the answers that the paper asks for; the paper says nothing of its own but where to look next.
/// What it cannot decide, it sends to the telephone. No insulin dose is ever on it. `further`: protocols of the same
/// set that get a page of their own, each linked with its set. Empty when the protocol has no low that paper could
/// hold. Pure: the same protocol, child and day give the same sheet.
std::optional<Sheet> sheet_of(const CheckedProtocol& low, const std::vector<CheckedProtocol>& further,
                              const Child& child, const Day& today);

/// The child with the names as the steps say them: of a long one its first word, also of the second adult.
Child as_called(Child child);

}  // namespace rushlight
