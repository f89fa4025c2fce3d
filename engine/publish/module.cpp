#include "publish/module.hpp"

#include "publish/print_sheet.hpp"

void rushlight_print_sheet(const rushlight::Sheet& sheet, bool letter, bool svg, rushlight::Printed& printed) {
  printed = rushlight::print_sheet(sheet, letter ? rushlight::kLetter : rushlight::kA4Upright, svg);
}

void rushlight_print_records(const std::vector<rushlight::NightRecord>& nights, rushlight::Language language,
                             bool letter, rushlight::Printed& printed) {
  printed = rushlight::print_records(nights, language, letter ? rushlight::kLetter : rushlight::kA4Upright);
}
