#include "cli/numbers_sheet.hpp"

#include <boost/test/unit_test.hpp>
#include <random>

#include "cli/clinic_copy.hpp"
#include "cli/numbers_list.hpp"
#include "wire/csv.hpp"

namespace rushlight::tests {

namespace {

using Names = std::vector<std::string>;
using Rows = std::vector<std::vector<std::string>>;

constexpr std::size_t kBand = 2, kValue = 4, kMmol = 5;

Rows rows_of(const std::string& csv) {
  const Read<CsvTable> table = csv_table(csv, "numbers.csv");
  BOOST_REQUIRE(table.value);
  Rows rows;
  const auto add = [&](const CsvRow& row) {
    rows.emplace_back();
    for (const CsvCell& cell : row) rows.back().push_back(cell.text);
  };
  add(table.value->head);
  for (const CsvRow& row : table.value->rows) add(row);
  return rows;
}

std::vector<std::string>& row_named(Rows& rows, const std::string& id, const std::string& band = "") {
  for (auto& row : rows) {
    if (row[0] == id && row[kBand] == band) return row;
  }
  throw std::runtime_error("no row " + id);
}

std::string saved(const Rows& rows, char separator = ',', const std::string& end = "\r\n") {
  std::string text;
  for (const auto& row : rows) {
    for (std::size_t i = 0; i < row.size(); ++i) {
      if (i > 0) text += separator;
      text += row[i].find_first_of(",;\"") == std::string::npos ? row[i] : "\"" + row[i] + "\"";
    }
    text += end;
  }
  return text;
}

/// The clinic's table, changed by `change`, saved and given back.
template <class Change>
Run given_back(const ClinicCopy& clinic, Change change, const std::vector<std::string>& more = {}) {
  Rows rows = rows_of(clinic.run({"--csv"}).out);
  change(rows);
  clinic.write("numbers.csv", saved(rows));
  std::vector<std::string> words{"--from", clinic.beside("numbers.csv")};
  words.insert(words.end(), more.begin(), more.end());
  return clinic.run(words);
}

}  // namespace

BOOST_AUTO_TEST_SUITE(table_of_numbers)

BOOST_AUTO_TEST_CASE(table_that_nobody_changed_changes_nothing) {
  for (const std::string language : {"en", "es"}) {
    const ClinicCopy clinic;
    const std::string csv = clinic.run({"--csv", "--lang", language}).out;
    for (const std::string& text :
         {csv, "\xEF\xBB\xBF" + csv, saved(rows_of(csv), ';', "\n"), saved(rows_of(csv), '\t', "\r")}) {
      clinic.write("numbers.csv", text);
      const Run run = clinic.run({"--from", clinic.beside("numbers.csv")});
      BOOST_TEST(run.status == 0, run.err);
      BOOST_TEST(run.out == "Nothing to change. Nothing is written.\n");
      BOOST_TEST(clinic.changed() == Names{});
    }
  }
}

BOOST_AUTO_TEST_CASE(every_value_that_the_table_shows_is_understood_as_the_value_of_the_file) {
  for (const std::string set : {"reference", "harbour-lane"}) {
    for (const Language language : {Language::en, Language::es}) {
      const NumbersSet numbers = numbers_set(set);
      Rows rows = rows_of(csv_from_numbers(numbers, language));
      BOOST_REQUIRE(rows.size() > 150U);
      // Without `was` every row is read and compared with the file.
      for (auto& row : rows) row[8] = "";
      rows[0][8] = "nothing";
      const auto wishes = wishes_from_csv(numbers, saved(rows), "numbers.csv");
      for (const Finding& finding : wishes.findings) BOOST_ERROR(text_from_finding(finding, {}));
      BOOST_REQUIRE(wishes.value);
      for (const Wish& wish : *wishes.value) BOOST_ERROR(wish.id << " " << wish.value);
    }
  }
}

BOOST_AUTO_TEST_CASE(changed_rows_alone_are_written) {
  const ClinicCopy clinic;
  const Run run = given_back(clinic, [](Rows& rows) {
    row_named(rows, "honey-age")[kValue] = "13 months";
    row_named(rows, "carb-by-age", "under-6-years")[kValue] = "6 g";
    row_named(rows, "low")[kValue] = "66 mg/dL";
    row_named(rows, "low")[kMmol] = "3.7 mmol/L";
  });
  BOOST_TEST(run.status == 0, run.err);
  BOOST_TEST(clinic.changed() == (Names{"illness.xml", "ketones.xml", "low.xml"}));
  BOOST_TEST(contains(clinic.read("low.xml"), "id=\"honey-age\" value=\"13 mo\""));
  BOOST_TEST(contains(run.out, "5 g -> 6 g"));
  const Run again = clinic.run({"--from", clinic.beside("numbers.csv")});
  BOOST_TEST(again.out == "Nothing to change. Nothing is written.\n");
}

BOOST_AUTO_TEST_CASE(european_spreadsheet_writes_semicolons_commas_and_a_mark) {
  const ClinicCopy clinic;
  Rows rows = rows_of(clinic.run({"--csv", "--lang", "es"}).out);
  row_named(rows, "carb-per-kg")[kValue] = "0,25 g/kg";
  row_named(rows, "low")[kValue] = "66 mg/dL";
  row_named(rows, "low")[kMmol] = "3,7";
  row_named(rows, "fever-celsius")[kValue] = "38,5";
  clinic.write("numbers.csv", "\xEF\xBB\xBF" + saved(rows, ';'));
  const Run run = clinic.run({"--from", clinic.beside("numbers.csv")});
  BOOST_TEST(run.status == 0, run.err);
  BOOST_TEST(contains(run.out, "0.3 g/kg -> 0.25 g/kg"), run.out);
  BOOST_TEST(contains(run.out, "38.3 -> 38.5"), run.out);
  BOOST_TEST(contains(clinic.read("low.xml"), "mg-dl=\"66\" mmol-l=\"3.7\""));
}

BOOST_AUTO_TEST_CASE(thousands_of_a_european_spreadsheet_are_doubtful) {
  const ClinicCopy clinic;
  Rows rows = rows_of(clinic.run({"--csv"}).out);
  row_named(rows, "carb-per-kg")[kValue] = "1.250 g/kg";
  clinic.write("numbers.csv", saved(rows, ';'));
  const Run run = clinic.run({"--from", clinic.beside("numbers.csv")});
  BOOST_TEST(run.status == 1);
  BOOST_TEST(contains(run.err, "it may be thousands or thousandths"), run.err);
}

BOOST_AUTO_TEST_CASE(glucose_changed_in_one_cell_needs_the_other_one_or_a_yes) {
  const ClinicCopy clinic;
  const auto lower = [](Rows& rows) { row_named(rows, "low")[kValue] = "66 mg/dL"; };
  const Run refused = given_back(clinic, lower);
  BOOST_TEST(refused.status == 1);
  BOOST_TEST(contains(refused.err, "66 mg/dL is new"), refused.err);
  BOOST_TEST(clinic.changed() == Names{});
  BOOST_TEST(given_back(clinic, lower, {"--yes"}).status == 0);
  // 71 mg/dL is 3.9 mmol/L still: nothing has to be worked out.
  const ClinicCopy other;
  BOOST_TEST(given_back(other, [](Rows& rows) { row_named(rows, "low")[kValue] = "71 mg/dL"; }).status == 0);
  BOOST_TEST(contains(other.read("low.xml"), "mg-dl=\"71\" mmol-l=\"3.9\""));
  const ClinicCopy mmol;
  BOOST_TEST(given_back(mmol, [](Rows& rows) { row_named(rows, "low")[kMmol] = "4.0"; }, {"--yes"}).status == 0);
  BOOST_TEST(contains(mmol.read("low.xml"), "mg-dl=\"72\" mmol-l=\"4.0\""));
}

BOOST_AUTO_TEST_CASE(cell_of_the_other_unit_that_was_left_is_said_to_hold_the_old_value) {
  const ClinicCopy clinic;
  const Run mg = given_back(clinic, [](Rows& rows) { row_named(rows, "low")[kValue] = "66 mg/dL"; });
  BOOST_TEST(contains(mg.err, "`low` has two values: 66 mg/dL is new, and 3.9 mmol/L beside it is still the old one"),
             mg.err);
  const Run mmol = given_back(clinic, [](Rows& rows) { row_named(rows, "low")[kMmol] = "3.6 mmol/L"; });
  BOOST_TEST(contains(mmol.err, "3.6 mmol/L is new, and 70 mg/dL beside it is still the old one"), mmol.err);
  const Run only = clinic.run({"--change", "low=66 mg/dL"});
  BOOST_TEST(contains(only.err, "only 66 mg/dL is stated"), only.err);
}

BOOST_AUTO_TEST_CASE(no_break_space_of_a_spreadsheet_is_named_since_nobody_can_see_it) {
  const ClinicCopy clinic;
  const std::pair<std::string, std::string> kCells[] = {{"low", "66\u00A0mg/dL"}, {"honey-age", "13\u202Fmonths"}};
  for (const auto& [id, cell] : kCells) {
    const Run run = given_back(clinic, [&, id = id, cell = cell](Rows& rows) { row_named(rows, id)[kValue] = cell; });
    BOOST_TEST(run.status == 1, run.out);
    BOOST_TEST(contains(run.err, "a blank of another kind stands before `m"), run.err);
    BOOST_TEST(contains(run.err, "delete it and type a space"), run.err);
    BOOST_TEST(contains(run.err, "column `value` (E)"), run.err);
    BOOST_TEST(clinic.changed() == Names{});
  }
}

BOOST_AUTO_TEST_CASE(both_cells_changed_to_two_glucoses_are_refused) {
  const ClinicCopy clinic;
  const Run run = given_back(clinic, [](Rows& rows) {
    row_named(rows, "low")[kValue] = "66 mg/dL";
    row_named(rows, "low")[kMmol] = "4.4 mmol/L";
  });
  BOOST_TEST(run.status == 1);
  BOOST_TEST(contains(run.err, "are not the same glucose"), run.err);
}

BOOST_AUTO_TEST_CASE(number_that_somebody_changed_since_the_table_was_made_is_not_taken_back) {
  const ClinicCopy clinic;
  const Run run = given_back(clinic, [&](Rows& rows) {
    row_named(rows, "honey-age")[kValue] = "14 months";
    clinic.run({"--change", "honey-age=13 months"});
  });
  BOOST_TEST(run.status == 1);
  BOOST_TEST(contains(run.err, "the table was made when `honey-age` was `12 months`, and now it is `13 months`"), run.err);
  BOOST_TEST(contains(clinic.read("low.xml"), "id=\"honey-age\" value=\"13 mo\""));
}

BOOST_AUTO_TEST_CASE(what_a_spreadsheet_made_of_rows_nobody_touched_does_not_count) {
  const ClinicCopy clinic;
  const Run run = given_back(clinic, [](Rows& rows) {
    for (auto& row : rows) {
      for (const std::size_t at : {kValue, std::size_t{8}}) {
        if (row[at] == "38.3") row[at] = "38-mar";
        if (row[at] == "2") row[at] = "2.00";
      }
    }
    row_named(rows, "honey-age")[kValue] = "13 months";
  });
  BOOST_TEST(run.status == 0, run.err);
  BOOST_TEST(clinic.changed() == Names{"low.xml"});
}

BOOST_AUTO_TEST_CASE(columns_may_be_moved_and_dropped_and_a_table_of_two_is_enough) {
  const ClinicCopy clinic;
  clinic.write("numbers.csv", "Value,ID\n13 months,honey-age\n6 g,carb-by-age:under-6-years\n12 min,ketones/recheck\n");
  const Run run = clinic.run({"--from", clinic.beside("numbers.csv")});
  BOOST_TEST(run.status == 0, run.err);
  BOOST_TEST(clinic.changed() == (Names{"illness.xml", "ketones.xml", "low.xml"}));
}

BOOST_AUTO_TEST_CASE(what_is_wrong_in_a_table_is_told_by_line_and_column_and_is_mended_there) {
  const struct {
    std::string csv;
    std::vector<std::string> says;
  } kTables[] = {
      {"id;value;mmol/L\nlow;66;3,7\n", {"because  line 2 of the table, column `value` (B)"}},
      {"id,label,value\nrecheck,,200 min\n", {"because  line 2 of the table, column `value` (C)"}},
      {"id,value\nlow,66 mg/dL\n",
       {"line 2 of the table, column `value` (B)", "write `3.7 mmol/L` into the column `mmol/L`, or take it with"}},
      {"id,value\n\ncarb-by-age,6 g\n",
       {"line 3 of the table, column `id` (A)", "write `under-6-years` or ", " into the column `band`"}},
      {"id,value\nmost-late-checks,9\n",
       {"line 2 of the table, column `id` (A)", "write `illness,ketones` or `low` into the column `protocols`"}},
      {"id,protocols,value\nTreat as low below,low,66 mg/dL\n", {"its name is shorter", "write `low`"}},
  };
  for (const auto& table : kTables) {
    const ClinicCopy clinic;
    clinic.write("numbers.csv", table.csv);
    const Run run = clinic.run({"--from", clinic.beside("numbers.csv")});
    BOOST_TEST(run.status == 1, run.out << run.err);
    for (const std::string& words : table.says) BOOST_TEST(contains(run.err, words), run.err);
    BOOST_TEST(!contains(run.err, "low=66"), run.err);
    BOOST_TEST(clinic.changed() == Names{});
  }
}

BOOST_AUTO_TEST_CASE(tables_that_make_no_sense_are_refused_with_their_row) {
  const struct {
    std::string csv, says;
  } kTables[] = {
      {"", "it is empty"},
      {"low=66 mg/dL\n", "the first row has no `id`"},
      {"id,label\nlow,x\n", "the first row has no `value`"},
      {"id,value,id\nlow,66 mg/dL,low\n", "`id` is written twice"},
      {"id,value\nlwo,66 mg/dL\n", "numbers.csv:2:1: error: no threshold is called `lwo`"},
      {"id;value;mmol/L\nlow;66;3,7\n", "numbers.csv:2:5: error: `66` has no unit"},
      {"id,value\n\nhoney-age,\n", "numbers.csv:3:11: error: a number is missing here"},
      {"id,value\nhoney-age,13 months\nhoney-age,14 months\n", "`honey-age` is written twice"},
      {"id,value\ncarb-by-age,6 g\n", "has 3 bands, and none is named"},
      {"id,band,value\ncarb-by-age,under-7-years,6 g\n", "write `under-6-years`"},
      {"id,value\ncarb-per-kg,0,25 g/kg\n", "this row has 3 cells, and the first row has 2"},
      {"id,value\nhoney-age,\"13 months\n",
       "numbers.csv:2:11: error: this is not a table of numbers: a quote sign here has no partner"},
      {"id,value\nhoney-age,13 m\xF3nths\n", "has the wrong unit"},
      {std::string("id,value\nhoney-age,13\0 mo\n", 26), "this is not text in UTF-8"},
      {"id,value\nhoney-age,=1+1\n", "`=1+1` cannot be used"},
      {"id,value\n" + std::string(5'000, 'x') + ",1\n", "no threshold is called"},
      {"id,value\n\x1b[2Jlow,1\n", "no threshold is called"},
  };
  for (const auto& table : kTables) {
    const ClinicCopy clinic;
    clinic.write("numbers.csv", table.csv);
    const Run run = clinic.run({"--from", clinic.beside("numbers.csv"), "--yes"});
    BOOST_TEST(run.status == 1, run.out << run.err);
    BOOST_TEST(contains(run.err, table.says), run.err);
    BOOST_TEST(!contains(run.err, "\x1b"));
    BOOST_TEST(clinic.changed() == Names{});
  }
}

BOOST_AUTO_TEST_CASE(label_that_is_a_formula_is_harmless_in_the_table) {
  const ClinicCopy clinic;
  clinic.edit("low.xml", "<en>Honey from</en>", "<en>=HYPERLINK(\"x\";-1) a,b</en>");
  const std::string csv = clinic.run({"--csv"}).out;
  BOOST_TEST(contains(csv, ",\"'=HYPERLINK(\"\"x\"\";'-1) a,b\","), csv);
  clinic.write("numbers.csv", csv);
  BOOST_TEST(clinic.run({"--from", clinic.beside("numbers.csv")}).out == "Nothing to change. Nothing is written.\n");
}

BOOST_AUTO_TEST_CASE(table_with_any_bytes_changed_never_ends_the_program) {
  const NumbersSet numbers = numbers_set("reference");
  const std::string whole = csv_from_numbers(numbers, Language::en);
  const std::string csv = whole.substr(0, whole.rfind("\r\n", 8'000) + 2);
  constexpr unsigned kSeed = 77;
  std::mt19937 dice(kSeed);
  std::size_t read = 0;
  for (int i = 0; i < 300; ++i) {
    std::string bytes = csv;
    for (int changes = 0; changes < 6; ++changes) bytes[dice() % bytes.size()] = static_cast<char>(dice() % 256);
    const auto wishes = wishes_from_csv(numbers, bytes, "numbers.csv");
    BOOST_REQUIRE(wishes.value.has_value() != has_error(wishes.findings));
    if (wishes.value) read += planned(numbers, *wishes.value).files.size() + 1;
  }
  BOOST_TEST(read > 0U);
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace rushlight::tests
