#pragma once

#include <optional>
#include <string>

#include "publish/printed.hpp"
#include "record/night_record.hpp"
#include "sheet/sheet.hpp"

namespace rushlight {

/// The sheet as PDF or SVG, by the part of the program that lies beside it and is loaded only for this
/// (engine/publish). Empty when that part is not there. `paper` is A4 or Letter.
std::optional<Printed> printed_sheet(const Sheet& sheet, const std::string& paper, bool svg);

/// The records as PDF, in the same way.
std::optional<Printed> printed_records(const std::vector<NightRecord>& nights, Language language,
                                       const std::string& paper);

}  // namespace rushlight
