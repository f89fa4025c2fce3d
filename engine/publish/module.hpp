#pragma once

#include "publish/printed.hpp"
#include "record/night_record.hpp"
#include "sheet/sheet.hpp"

/// What cli/paper_module looks for in rushlight-paper.so.
extern "C" void rushlight_print_sheet(const rushlight::Sheet& sheet, bool letter, bool svg,
                                      rushlight::Printed& printed);
extern "C" void rushlight_print_records(const std::vector<rushlight::NightRecord>& nights, rushlight::Language language,
                                        bool letter, rushlight::Printed& printed);
