#pragma once

#include <iosfwd>
#include <string>

#include "cli/numbers_set.hpp"

namespace rushlight {

// Every number of a set that a clinic may change, in three forms.

/// For people: 100 columns at most, whatever the labels are.
void print_numbers(std::ostream& out, const NumbersSet& set, Language language);

/// For a spreadsheet; `numbers_sheet.hpp` reads it back. One row for each value, so one for each band.
std::string csv_from_numbers(const NumbersSet& set, Language language);
/// The same with the values that the set will have; what it has now stands in the column `was`.
std::string csv_from_numbers(const NumbersSet& set, const std::vector<Draft>& changed, Language language);

/// For programs: one JSON document, the values as the files hold them.
std::string json_from_numbers(const NumbersSet& set, Language language);

}  // namespace rushlight
