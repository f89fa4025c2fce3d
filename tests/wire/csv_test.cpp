#include "wire/csv.hpp"

#include <boost/test/unit_test.hpp>
#include <random>

namespace rushlight::tests {

namespace {

std::vector<std::vector<std::string>> cells_of(const std::string& bytes) {
  const Read<CsvTable> table = csv_table(bytes, "numbers.csv");
  for (const Finding& finding : table.findings) BOOST_ERROR(text_from_finding(finding, {}));
  BOOST_REQUIRE(table.value);
  std::vector<std::vector<std::string>> all;
  const auto add = [&](const CsvRow& row) {
    all.emplace_back();
    for (const CsvCell& cell : row) all.back().push_back(cell.text);
  };
  add(table.value->head);
  for (const CsvRow& row : table.value->rows) add(row);
  return all;
}

using Cells = std::vector<std::vector<std::string>>;

std::string refusal_of(const std::string& bytes) {
  const Read<CsvTable> table = csv_table(bytes, "numbers.csv");
  BOOST_TEST(!table.value.has_value());
  return table.findings.empty() ? "" : text_from_finding(table.findings.front(), {});
}

}  // namespace

BOOST_AUTO_TEST_SUITE(tables)

BOOST_AUTO_TEST_CASE(row_is_written_as_the_standard_says) {
  BOOST_TEST(csv_row({"low", "70 mg/dL, 3.9 mmol/L", "", "say \"low\"", "two\nlines"}) ==
             "low,\"70 mg/dL, 3.9 mmol/L\",,\"say \"\"low\"\"\",\"two\nlines\"\r\n");
}

BOOST_AUTO_TEST_CASE(what_a_spreadsheet_takes_for_a_formula_gets_an_apostrophe) {
  BOOST_TEST(csv_row({"=1+1", "+1", "-1", "@x", " =1", "\t=1", "a;=1",
                      "\xEF\xBC\x9D"
                      "1",
                      "a=1", "1-2"}) ==
             "'=1+1,'+1,'-1,'@x,' =1,\"'\t'=1\",\"a;'=1\",'\xEF\xBC\x9D"
             "1,a=1,1-2\r\n");
  BOOST_TEST(csv_row({"a;;-2+3;b"}) == "\"a;;'-2+3;b\"\r\n");
}

BOOST_AUTO_TEST_CASE(apostrophe_before_a_formula_is_taken_off_again) {
  for (const std::string cell : {"=1+1", "-x", "@", "low", "'tis", ""}) {
    const std::string row = csv_row({cell, "x"});
    const Cells again = cells_of("id,b\r\n" + row);
    BOOST_TEST(cell_as_written(again.at(1).at(0)) == cell);
  }
}

BOOST_AUTO_TEST_CASE(line_ends_a_mark_and_the_separators_of_spreadsheets_are_understood) {
  const Cells wanted = {{"id", "value"}, {"low", "70"}, {"x", "1,5"}};
  for (const std::string end : {"\n", "\r\n", "\r"}) {
    for (const std::string mark : {"", "\xEF\xBB\xBF"}) {
      BOOST_TEST((cells_of(mark + "id,value" + end + "low,70" + end + "x,\"1,5\"" + end) == wanted));
      BOOST_TEST((cells_of(mark + "id;value" + end + "low;70" + end + end + ";" + end + "x;1,5") == wanted));
      BOOST_TEST((cells_of(mark + "id\tvalue" + end + "low\t70" + end + "x\t1,5" + end) == wanted));
      BOOST_TEST((cells_of(mark + "sep=;" + end + "id;value" + end + "low; 70 " + end + "x;1,5" + end) == wanted));
    }
  }
}

BOOST_AUTO_TEST_CASE(decimal_comma_is_expected_where_no_comma_parts_the_cells) {
  BOOST_TEST(csv_table("id;value\nx;1,5", "t").value.value().decimal_comma);
  BOOST_TEST(csv_table("id\tvalue\nx\t1,5", "t").value.value().decimal_comma);
  BOOST_TEST(!csv_table("id,value\nx,1.5", "t").value.value().decimal_comma);
}

BOOST_AUTO_TEST_CASE(cell_knows_its_line_and_column_in_letters) {
  const auto table = csv_table("id,label,value\r\n\"a\r\nb\",ni\xC3\xB1o,70\r\n", "t").value.value();
  const CsvRow& row = table.rows.at(0);
  BOOST_TEST(row.at(0).where.line == 2U);
  BOOST_TEST(row.at(1).where.line == 3U);
  BOOST_TEST(row.at(1).where.column == 4U);
  BOOST_TEST(row.at(1).where.length == 4U);
  BOOST_TEST(row.at(2).where.column == 9U);
}

BOOST_AUTO_TEST_CASE(broken_tables_are_refused_at_their_place) {
  BOOST_TEST(refusal_of("id,value\nlow,\"70\n")
                 .find("numbers.csv:2:5: error: this is not a table of numbers: a quote sign here has no partner") ==
             0U);
  BOOST_TEST(refusal_of("id,value\n\"low\" x,70\n").find("numbers.csv:2:1: error: ") == 0U);
  BOOST_TEST(refusal_of("id,value\nlow,3,9 mmol/L\n")
                 .find("numbers.csv:2:7: error: this is not a table of numbers: this row has 3 cells, and the first "
                       "row has 2") == 0U);
  BOOST_TEST(refusal_of("").find("it is empty") != std::string::npos);
  BOOST_TEST(refusal_of("\xEF\xBB\xBF\r\n,,,\r\n").find("it is empty") != std::string::npos);
  BOOST_TEST(refusal_of(std::string("id,value\nl\0w,70", 15)).find("UTF-8") != std::string::npos);
  BOOST_TEST(refusal_of("\xFF\xFEi\0d\0").find("UTF-8") != std::string::npos);
  BOOST_TEST(refusal_of(std::string(kMostCsvBytes + 1, 'x')).find("the limit for the size of the file") !=
             std::string::npos);
  BOOST_TEST(refusal_of(std::string(kMostCsvCells + 1, ',')).find("cells of a row") != std::string::npos);
  std::string many = "id\n";
  for (std::size_t i = 0; i <= kMostCsvRows; ++i) many += "x\n";
  BOOST_TEST(refusal_of(many).find("the limit for rows") != std::string::npos);
}

BOOST_AUTO_TEST_CASE(shorter_rows_and_empty_cells_behind_the_last_are_taken) {
  BOOST_TEST((cells_of("id,value\nlow\nx,1,,\n") == Cells{{"id", "value"}, {"low"}, {"x", "1", "", ""}}));
}

BOOST_AUTO_TEST_CASE(whatever_bytes_come_are_read_or_refused_and_what_is_written_is_read_back) {
  constexpr unsigned kSeed = 4180;
  std::mt19937 dice(kSeed);
  const std::string signs = "\",;\t\r\n=+-@' a1\xC3\xB1\xFF";
  const auto drawn = [&](std::size_t most) {
    std::string text;
    for (std::size_t i = dice() % most; i > 0; --i) text += signs[dice() % signs.size()];
    return text;
  };
  for (int i = 0; i < 20'000; ++i) {
    const Read<CsvTable> table = csv_table(drawn(60), "t");
    BOOST_REQUIRE(table.value.has_value() != has_error(table.findings));
  }
  for (int i = 0; i < 5'000; ++i) {
    const std::string cell = "x" + drawn(12) + "x";
    const Cells read = cells_of("a,b\r\n" + csv_row({cell, "end"}));
    std::string expected = cell;
    for (std::size_t at = 0; at < read.at(1).at(0).size(); ++at) {
      if (at < expected.size() && read[1][0][at] == expected[at]) continue;
      BOOST_REQUIRE(read[1][0][at] == '\'');  // in front of a formula, where another spreadsheet parts the cells
      expected.insert(at, "'");
    }
    BOOST_TEST(read[1][0] == expected);
  }
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace rushlight::tests
