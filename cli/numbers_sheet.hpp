#pragma once

#include <string>
#include <vector>

#include "cli/number_changes.hpp"
#include "cli/say.hpp"

namespace rushlight {

// The table that goes out to a spreadsheet and comes back.

/// The columns, in their order. A row names its number by the first three; `was` says what the value was when the table
/// was made, so that a change somebody made since is not taken back unseen.
enum class Column : std::uint8_t { id, protocols, band, label, value, mmol, least, most, was, source, places };
inline constexpr int kColumns = 11;

/// What stands in the first row above a column. Columns that are read back have plain letters in both languages.
std::string heading(Column column, Language language);

/// What is said of a wish of a table: with its cell as a spreadsheet shows it, and what would be right as it is typed
/// there and not behind `--change`. `kept` is the old value that the cell of the other unit still holds, if it does.
Finding in_table(Finding finding, const std::string& cell, const std::string& kept = "");

/// The rows whose value is another than `was` says; without such a column, another than the set has now.
/// A column may stand anywhere, and those that are not read may be gone.
Read<std::vector<Wish>> wishes_from_csv(const NumbersSet& set, const std::string& bytes, const std::string& file);

}  // namespace rushlight
