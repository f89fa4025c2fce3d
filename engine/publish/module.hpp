#pragma once

#include "publish/printed.hpp"
#include "sheet/sheet.hpp"

/// What cli/paper_module looks for in rushlight-paper.so.
extern "C" void rushlight_print_sheet(const rushlight::Sheet& sheet, bool letter, bool svg,
                                      rushlight::Printed& printed);
