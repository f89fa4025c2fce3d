#pragma once

#include <string>

#include "sheet/sheet.hpp"

namespace rushlight {

/// The sheet as plain text, no line wider than 80 columns: for a printer without PDF, a screen reader or a message.
std::string text_from_sheet(const Sheet& sheet);

}  // namespace rushlight
