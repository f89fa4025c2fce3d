#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "finding/finding.hpp"

namespace rushlight {

// A table as a spreadsheet opens and saves it. Written by RFC 4180; read as spreadsheets of either side of the Atlantic
// write it.

/// One row with its line end (CR LF). A cell that a spreadsheet would take for a formula gets an apostrophe in front,
/// which spreadsheets hide; so does what stands behind a semicolon or a tab, where another spreadsheet parts the cells.
std::string csv_row(const std::vector<std::string>& cells);

/// What a cell held before csv_row: the apostrophe in front of a formula is taken off again.
std::string cell_as_written(std::string_view cell);

struct CsvCell {
  std::string text;  // as it stands in the table, without its quote signs and the blanks around
  Where where;
};
using CsvRow = std::vector<CsvCell>;

struct CsvTable {
  CsvRow head;               // the first row
  std::vector<CsvRow> rows;  // those below that hold anything
  bool decimal_comma;        // the cells are parted by semicolons or tabs: numbers may be written with a comma
};

// Far above a table of every number of a set.
inline constexpr std::size_t kMostCsvBytes = 4 * 1024 * 1024;
inline constexpr std::size_t kMostCsvRows = 5'000;
inline constexpr std::size_t kMostCsvCells = 200;  // of one row

/// Takes LF, CR LF and CR, a byte order mark, `sep=;` in front, and commas, semicolons or tabs between the cells:
/// whichever parts the first row most often. Bytes that are not UTF-8 stay in their cell, since most columns are for
/// the eye alone; UTF-16 and a NUL are refused. Refuses a quote sign without its partner, and text behind a closing
/// one; a row with more cells than the first one, because a comma that parts a number would move all that follows.
Read<CsvTable> csv_table(std::string_view bytes, const std::string& file_name);

}  // namespace rushlight
