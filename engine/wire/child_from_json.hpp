#pragma once

#include <string>
#include <string_view>

#include "finding/finding.hpp"
#include "protocol/child.hpp"

namespace rushlight {

/// Reads a child file (docs/child-file.md). Every mistake is reported in one run; the child is absent when one of them
/// is an error. `today` refuses dates that have not come yet. A file that is accepted on one day is accepted on every
/// later day: weight is judged by the age on the day of weighing, so that nothing is refused at night because time has
/// passed. A weight unusual for the age, or an unusual daily dose, is asked about (ImplausibleValue) until the file
/// says
/// `"weight_confirmed": true` or `"total_daily_dose_confirmed": true`.
Read<Child> child_from_json(std::string_view bytes, const std::string& file, Day today);

}  // namespace rushlight
