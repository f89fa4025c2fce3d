#include <boost/test/unit_test.hpp>

#include "tests/verify/small_checks.hpp"

using namespace rushlight;
using namespace rushlight::tests;

namespace {

const std::string kRows = R"(<row per-kg="per-kilogram" least="few-grams" most="many-grams" source="table"/>
      <row fixed="few-grams" source="practice"><if fact="weight" is="unknown"/></row>)";
const std::string kByWeight = R"(<row per-kg="per-kilogram" least="few-grams" most="many-grams" source="table"/>)";

std::string uncovered(const std::string& rows) { return only_check<DoseNotCovered>(with(kRows, rows)).kind.example; }

}  // namespace

BOOST_AUTO_TEST_SUITE(doses)

BOOST_AUTO_TEST_CASE(a_child_of_unknown_weight_needs_a_row) {
  BOOST_TEST(uncovered(kByWeight) == "a child of unknown weight");
  BOOST_TEST(told(checked(with(kRows, kByWeight + R"(<row withheld="yes" source="practice"><en>Call.</en></row>)"))) ==
             "");
}

BOOST_AUTO_TEST_CASE(a_child_of_unknown_weight_needs_a_row_whatever_the_insulin_comes_from) {
  BOOST_TEST(
      uncovered(kByWeight + R"(<row fixed="few-grams" source="practice"><if fact="delivery" is="pump"/></row>)") ==
      "a child of unknown weight (delivery: injections)");
}

BOOST_AUTO_TEST_CASE(a_child_of_known_weight_needs_a_row_too) {
  BOOST_TEST(uncovered(R"(<row fixed="few-grams" source="practice"><if fact="age" at-least="honey-age"/></row>)") ==
             "a child (age 11 months)");
  BOOST_TEST(
      uncovered(
          R"(<row fixed="few-grams" source="practice"><if fact="rescue" is="nasal injection premixed none"/></row>)") ==
      "a child (rescue: expired)");
}

BOOST_AUTO_TEST_CASE(a_row_behind_one_that_takes_every_child_is_dead) {
  const auto found =
      only_check<DoseRowNeverMatches>(with(kRows, R"(<row fixed="few-grams" source="practice"/>)" + kByWeight));
  BOOST_TEST(found.kind.row == 2);
  BOOST_TEST(found.kind.earlier == 1);
}

BOOST_AUTO_TEST_CASE(a_row_behind_one_for_each_kilogram_still_takes_the_unknown_weight) {
  BOOST_TEST(told(checked(with(kRows, kByWeight + R"(<row fixed="few-grams" source="practice"/>)"))) == "");
}

BOOST_AUTO_TEST_CASE(the_least_of_a_row_is_not_above_its_most_in_any_band) {
  const auto most = [](const std::string& older) {
    return with_threshold(
        with(R"(most="many-grams" source="table"/>)", R"(most="cap" source="table"/>)"),
        R"(<carbohydrate id="cap" least="1 g" most="20 g" source="practice"><band age-up-to="6 a" value="15 g"/><band age-from="6 a" value=")" +
            older + R"("/><en>At most</en></carbohydrate>)");
  };
  BOOST_TEST(told(checked(most("5 g"))) == "");
  const auto found = only_check<BoundsCrossed>(most("4 g"));
  BOOST_TEST(found.kind.least_value == "5 g");
  BOOST_TEST(found.kind.most_value == "4 g");
}

BOOST_AUTO_TEST_CASE(sugar_is_not_followed_by_a_measurement_at_once) {
  const auto found = only_check<AsksAtOnce>(with(
      R"(      <wait timer="recheck" lasts="recheck" after="sugar" start-within="late" overdue="late" go="call"/>
)",
      ""));
  BOOST_TEST(found.kind.step == "treat");
  BOOST_TEST(found.kind.action == "sugar");
}

BOOST_AUTO_TEST_CASE(what_meets_a_danger_sign_is_an_emergency) {
  const std::string text =
      changed(with(R"(<step id="crew" urgency="emergency")", R"(<step id="crew" urgency="clinic-now")"),
              R"(<step id="emergency" urgency="emergency")", R"(<step id="emergency" urgency="clinic-now")");
  const std::vector<Finding> found = checked(text);
  BOOST_TEST_REQUIRE(found.size() == 2U);
  for (const Finding& finding : found) BOOST_TEST(finding.kind.is<TooCalm>());
}

BOOST_AUTO_TEST_SUITE_END()
