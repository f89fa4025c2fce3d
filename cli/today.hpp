#pragma once

#include "measure/moment.hpp"

namespace rushlight {

/// The calendar day where the machine stands, for judging dates in files. A clock that has lost its battery shows a day
/// long past; no day before this program was written is believed, so that such a clock refuses no child file.
Day today();

}  // namespace rushlight
