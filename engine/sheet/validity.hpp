#pragma once

#include <optional>

#include "sheet/low_page.hpp"

// Private to engine/sheet.

namespace rushlight {

/// The last day on which a sheet printed today may be used, and what ends then.
struct Validity {
  Day until;
  enum class Ends : std::uint8_t { approval, weight, rescue, age, look_again } ends;
};

/// The first of: the approval ends; the weight is older than the protocol takes it for fresh; the rescue medicine is
/// out of date; the child's age changes what the page says. When none of them comes within that time, the time after
/// which a weight counts as old.
Validity validity_of(const Protocol& protocol, const Child& child, const Day& today, const SheetPage& page);

/// Everything that a page says, in order: two pages that say the same are the same.
std::vector<std::string> texts_of(const SheetPage& page);

/// The moment of a day at which a sheet is derived: noon, no zone. A sheet holds no clock time.
Moment noon_of(const Day& day);

}  // namespace rushlight
