#pragma once

#include <iosfwd>
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

/// Says what the printing warned of and writes it, or why nothing was printed. Gives the exit status.
int put_printed(const std::optional<Printed>& printed, const std::string& command, const std::string& path,
                std::ostream& out, std::ostream& err);

}  // namespace rushlight
