#include <boost/test/unit_test.hpp>

#include "house/hazard_table.hpp"
#include "house/source_text.hpp"

using namespace rushlight::house;

namespace {

const std::string kTable =
    "# Hazards\n\n| Other | Table |\n| --- | --- |\n| a | b |\n\n"
    "| Hazard | Control | Test |\n| --- | --- | --- |\n"
    "| sugar for a child who will not wake | watch | `unconscious_child_gets_nothing_by_mouth` |\n"
    "| dose from an old weight | said on every dose | `old_weight_is_said`, `weights_by_age` |\n";

const std::string kRun =
    "<testsuite>\n"
    "<testcase assertions=\"3\" classname=\"low\" name=\"unconscious_child_gets_nothing_by_mouth\" time=\"0\">\n</testcase>\n"
    "<testcase assertions=\"1\" classname=\"low\" name=\"old_weight_is_said\" time=\"0\">\n</testcase>\n"
    "<testcase assertions=\"1\" classname=\"child.weights_by_age\" name=\"_0\" time=\"0\">\n</testcase>\n"
    "<testcase assertions=\"1\" classname=\"child.weights_by_age\" name=\"_1\" time=\"0\">\n</testcase>\n"
    "</testsuite>\n";

std::string with(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  BOOST_REQUIRE(at != std::string::npos);
  return text.replace(at, from.size(), to);
}

/// What the check says of a table and a run; "" when nothing is missing, the sentences joined otherwise.
std::string said_of(const std::string& table, const std::string& run) {
  Runs runs;
  add_runs(run, runs);
  std::string said;
  for (const std::string& line : uncontrolled(hazard_rows(table), runs)) said += line + "\n";
  return said;
}

bool contains(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

}  // namespace

BOOST_AUTO_TEST_SUITE(hazard_table)

BOOST_AUTO_TEST_CASE(hazards_whose_tests_ran_and_passed_are_controlled) {
  BOOST_TEST(hazard_rows(kTable).size() == 2U);
  BOOST_TEST(said_of(kTable, kRun) == "");
}

BOOST_AUTO_TEST_CASE(a_test_name_that_nobody_ran_is_reported) {
  const std::string table = with(kTable, "old_weight_is_said", "old_weight_is_sad");
  BOOST_TEST(contains(said_of(table, kRun), "`old_weight_is_sad`, which did not run or does not exist"));
}

BOOST_AUTO_TEST_CASE(a_named_test_that_failed_is_reported) {
  const std::string run = with(kRun, "name=\"_1\" time=\"0\">", "name=\"_1\" time=\"0\"><failure message=\"failure\"/>");
  BOOST_TEST(contains(said_of(kTable, run), "`weights_by_age`, which did not pass"));
}

BOOST_AUTO_TEST_CASE(a_named_test_that_was_left_out_is_reported) {
  const std::string run = with(kRun, "name=\"old_weight_is_said\" time=\"0\">", "name=\"old_weight_is_said\" time=\"0\"><skipped/>");
  BOOST_TEST(contains(said_of(kTable, run), "`old_weight_is_said`, which did not pass"));
}

BOOST_AUTO_TEST_CASE(a_named_test_that_another_build_tries_may_be_left_out_here) {
  Runs runs;
  add_runs(R"(<testcase name="low_is_treated"><skipped/></testcase>)", runs);
  const std::vector<HazardRow> rows{{"A low is missed", {"low_is_treated"}}};
  BOOST_TEST(uncontrolled(rows, runs, true).empty());
  BOOST_TEST(uncontrolled(rows, runs).size() == 1U);
}

BOOST_AUTO_TEST_CASE(a_named_test_that_one_run_left_out_and_another_ran_counts_as_it_went_there) {
  const std::string out = with(kRun, "name=\"old_weight_is_said\" time=\"0\">", "name=\"old_weight_is_said\" time=\"0\"><skipped/>");
  const std::string failed =
      with(kRun, "name=\"old_weight_is_said\" time=\"0\">", "name=\"old_weight_is_said\" time=\"0\"><failure message=\"failure\"/>");
  BOOST_TEST(said_of(kTable, out + kRun) == "");
  BOOST_TEST(said_of(kTable, kRun + out) == "");
  BOOST_TEST(contains(said_of(kTable, out + failed), "`old_weight_is_said`, which did not pass"));
  BOOST_TEST(contains(said_of(kTable, failed + out), "`old_weight_is_said`, which did not pass"));
}

BOOST_AUTO_TEST_CASE(a_named_test_that_checked_nothing_is_reported) {
  const std::string run = with(kRun, "assertions=\"3\"", "assertions=\"0\"");
  BOOST_TEST(contains(said_of(kTable, run), "`unconscious_child_gets_nothing_by_mouth`, which checked nothing"));
}

BOOST_AUTO_TEST_CASE(a_hazard_without_a_test_and_a_missing_table_are_reported) {
  BOOST_TEST(contains(said_of(with(kTable, "`unconscious_child_gets_nothing_by_mouth`", "soon"), kRun), "names no test"));
  BOOST_TEST(contains(said_of("# Hazards\n", kRun), "there is no table"));
}

BOOST_AUTO_TEST_CASE(the_table_of_this_tree_names_a_test_for_each_of_at_least_25_hazards) {
  const std::vector<HazardRow> rows = hazard_rows(text_of(std::filesystem::path(RUSHLIGHT_SOURCE_DIR) / "docs/hazards.md"));
  BOOST_TEST(rows.size() >= 25U);
  for (const HazardRow& row : rows) BOOST_TEST(!row.tests.empty(), row.hazard);
}

BOOST_AUTO_TEST_SUITE_END()
