#pragma once

#include <iosfwd>
#include <string>

namespace rushlight {

struct PlanWish {
  std::string child, journal, language;  // as for `walk`; otherwise the usual files
  std::string out;
};

/// `rushlight plan`: the coming checks of the open episode as an iCalendar file with alarms (RFC 5545).
/// 0 made, 1 no episode is open or no check is coming, 2 not readable or not writable.
int plan_command(const PlanWish& wish, std::ostream& out, std::ostream& err);

}  // namespace rushlight
