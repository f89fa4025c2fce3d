#include <algorithm>
#include <boost/test/unit_test.hpp>

#include "tests/compare/shipped.hpp"
#include "tests/verify/small_checks.hpp"
#include "verify/apart.hpp"

using namespace rushlight;
using namespace rushlight::tests;

// Slips in the shipped sets that no law and no example has to find.

namespace {

std::string the_file(const char* name) { return shipped_text("reference", name); }

/// The first finding of this kind, in a file that says something else in one place; the test ends without one.
template <class K>
K found_in(const std::string& text) {
  Read<Protocol> read = resolved_from_xml(text, "edited.xml");
  std::vector<Finding> findings = std::move(read.findings);
  if (read.value) {
    for (Finding& finding : check(std::move(*read.value)).findings) findings.push_back(std::move(finding));
  }
  for (const Finding& finding : findings) {
    if (const K* kind = finding.kind.as<K>()) return *kind;
  }
  throw std::runtime_error("not told; told is:\n" + told(findings));
}

template <class K>
bool is_told_in(const std::string& text) {
  const std::vector<Finding> findings = check(protocol_of(text)).findings;
  return std::any_of(findings.begin(), findings.end(), [](const Finding& each) { return each.kind.is<K>(); });
}

std::vector<Finding> set_with(const std::string& name, const std::string& text) {
  std::vector<Protocol> protocols;
  for (const char* each : {"low", "ketones", "illness"})
    protocols.push_back(protocol_of(name == each ? text : the_file(each)));
  return apart_in_set({&protocols[0], &protocols[1], &protocols[2]});
}

/// The file without the watch rule of this name.
std::string without_watch(const std::string& file, const std::string& name) {
  std::string text = the_file(file.c_str());
  const std::size_t from = text.find("<rule id=\"" + name + "\"");
  BOOST_REQUIRE(from != std::string::npos);
  text.erase(from, text.find("</rule>", from) + 7 - from);
  // No step may handle what is not there.
  for (std::size_t at = text.find(name); at != std::string::npos; at = text.find(name, at)) text.erase(at, name.size());
  return text;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(slips_without_a_law)

BOOST_AUTO_TEST_CASE(a_headline_that_names_the_most_for_the_dose_is_told) {
  const auto told = found_in<OtherDoseNamed>(
      with(the_file("ketones"), "<en>Give {extra-insulin} of rapid-acting insulin now. Then water.</en>",
           "<en>Give {largest-insulin} of rapid-acting insulin now. Then water.</en>"));
  BOOST_TEST(told.dose == "extra-insulin");
  BOOST_TEST(told.named == "largest-insulin");
}

BOOST_AUTO_TEST_CASE(a_headline_that_names_the_snack_for_the_sugar_is_told) {
  const auto told = found_in<OtherDoseNamed>(
      with(the_file("low"), "Very low. Give {fast-carbohydrate}", "Very low. Give {snack-carbohydrate}"));
  BOOST_TEST(told.named == "snack-carbohydrate");
}

BOOST_AUTO_TEST_CASE(insulin_with_the_same_most_for_a_toddler_and_an_adult_is_told) {
  const std::string whole = the_file("ketones");
  BOOST_TEST(!is_told_in<DoseOfAnyChild>(whole));
  const auto told =
      found_in<DoseOfAnyChild>(with_all(whole, R"( most-percent="largest-percent" most-per-kg="largest-per-kg")", ""));
  BOOST_TEST(told.dose == "extra-insulin");
  BOOST_TEST(told.row == 7);  // the larger of the table and the correction
}

BOOST_AUTO_TEST_CASE(insulin_that_falls_as_the_glucose_rises_is_told) {
  const std::string whole = the_file("ketones");
  BOOST_TEST(!is_told_in<DoseFalls>(whole));
  const auto told = found_in<DoseFalls>(
      with(whole, R"(<row percent="extra-large" source="icmr-2022"><if fact="ketones" at-least="high-ketones"/></row>)",
           R"(<row percent="extra-small" source="icmr-2022"><if fact="ketones" at-least="high-ketones"/></row>)"));
  BOOST_TEST(told.dose == "ketone-insulin");
}

BOOST_AUTO_TEST_CASE(a_glucose_of_half_a_day_ago_that_decides_is_told) {
  const std::string whole = the_file("ketones");
  BOOST_TEST(!is_told_in<ReadingTooOld>(whole));
  const auto told = found_in<ReadingTooOld>(
      with(whole, R"(<ask fact="glucose" fresh="just-now"/>)", R"(<ask fact="glucose" fresh="half-day"/>)"));
  BOOST_TEST(told.step == "measure");
  BOOST_TEST(told.most == "1 h");
}

BOOST_AUTO_TEST_CASE(silence_that_lasts_half_a_day_before_anybody_is_called_is_told) {
  const std::string whole = the_file("ketones");
  BOOST_TEST(!is_told_in<WaitUnusual>(whole));
  const auto late = found_in<WaitUnusual>(with(
      whole,
      R"(<wait timer="next-round" lasts="recheck-ketones" after="ketones-insulin" start-within="start-allowance" overdue="overdue")",
      R"(<wait timer="next-round" lasts="recheck-ketones" after="ketones-insulin" start-within="start-allowance" overdue="half-day")"));
  BOOST_TEST(late.step == "dose-sugar-free");
  const auto unsaid = found_in<WaitUnusual>(with(whole, R"(after="ketones-insulin" start-within="start-allowance")",
                                                 R"(after="ketones-insulin" start-within="half-day")"));
  BOOST_TEST(unsaid.step == "dose-sugar-free");
}

BOOST_AUTO_TEST_CASE(insulin_looked_at_again_after_half_a_day_is_told) {
  const auto told =
      found_in<WaitUnusual>(with(the_file("ketones"), R"(lasts="recheck-ketones" after="ketones-insulin")",
                                 R"(lasts="half-day" after="ketones-insulin")"));
  BOOST_TEST(told.most == "4 h");
}

BOOST_AUTO_TEST_CASE(what_the_other_files_look_out_for_and_one_does_not_is_told) {
  BOOST_TEST(told(set_with("", "")) == "");
  const std::vector<Finding> come = set_with("illness", without_watch("illness", "come-said"));
  BOOST_REQUIRE_MESSAGE(come.size() == 1U, told(come));
  BOOST_TEST(come.front().kind.get<WatchElsewhere>().watch == "come-said");
  BOOST_TEST(come.front().kind.get<WatchElsewhere>().others == "`low` and `ketones`");
}

BOOST_AUTO_TEST_CASE(one_fever_in_two_units_that_are_two_temperatures_is_told) {
  const std::string whole = the_file("illness");
  BOOST_TEST(!is_told_in<DegreesApart>(whole));
  const auto told =
      found_in<DegreesApart>(with(whole, R"(id="fever-celsius" value="38.3")", R"(id="fever-celsius" value="38")"));
  BOOST_TEST(told.is == "38 °C is 100.4 °F, not 101 °F");
  BOOST_TEST(told.right == "100.4 °F, or 38.3 °C");
}

BOOST_AUTO_TEST_CASE(the_name_of_the_child_may_stand_in_one_language_alone) {
  const std::string whole = the_file("illness");
  BOOST_CHECK_NO_THROW(protocol_of(with(whole, "¿{child} tiene fiebre?", "¿Tiene fiebre?")));
}

BOOST_AUTO_TEST_CASE(beside_insulin_a_glucose_leads_on_early_only_as_it_falls) {
  const std::string falls =
      R"(<rule go="falls" early="yes" source="star-sick"><if fact="glucose" below="sugary-below"/></rule>)";
  const auto told = found_in<EarlyRuleUntold>(
      with(the_file("ketones"), falls,
           R"(<rule go="falls" early="yes" source="star-sick"><if fact="glucose" at-least="sugary-below"/></rule>)"));
  BOOST_TEST(told.rule == "dose-sugar-free/2");
}

BOOST_AUTO_TEST_SUITE_END()
