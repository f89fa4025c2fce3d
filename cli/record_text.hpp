#pragma once

#include <string>
#include <vector>

#include "record/night_record.hpp"

namespace rushlight {

/// The records as plain text, no line wider than 80 columns, the patterns first when there are several.
std::string text_from_records(const std::vector<NightRecord>& nights, Language language);

}  // namespace rushlight
