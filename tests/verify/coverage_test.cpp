#include <boost/test/unit_test.hpp>

#include "tests/verify/small_checks.hpp"

using namespace rushlight;
using namespace rushlight::tests;

namespace {

const std::string kTreatBelow = R"(<rule go="treat"><if fact="glucose" below="low"/></rule>)";
const std::string kTreatUnknown = R"(<rule go="treat"><if fact="glucose" is="unknown"/></rule>)";
const std::string kWellAbove = R"(<rule go="well"><if fact="glucose" above="low"/></rule>)";
const std::string kWellAtLeast = R"(<rule go="well"><if fact="glucose" at-least="low"/></rule>)";
const std::string kAskPale = R"(<ask fact="symptoms"/>)";
const std::string kPaleOnes = R"(<rule go="treat"><if fact="symptoms" is="yes"/>)";  // so that every step is come to
const std::string kBoth = R"(<ask fact="glucose"/><ask fact="symptoms"/>)";

std::string gap(const std::string& text) { return only_check<ValuesNotCovered>(text).kind.example; }

}  // namespace

BOOST_AUTO_TEST_SUITE(coverage)

BOOST_AUTO_TEST_CASE(the_small_protocol_passes_every_check) {
  const Checked good = check(resolved());
  BOOST_TEST(told(good.findings) == "");
  BOOST_TEST_REQUIRE(good.protocol.has_value());
  BOOST_TEST(good.protocol->protocol().name == "low");
}

BOOST_AUTO_TEST_CASE(a_value_exactly_on_a_border_needs_a_rule) {
  const std::string text = measuring(kTreatBelow + kTreatUnknown + kWellAbove);
  const auto found = only_check<ValuesNotCovered>(text);
  BOOST_TEST(found.kind.step == "measure");
  BOOST_TEST(found.kind.example == "glucose 70 mg/dL");
  BOOST_TEST(found.underlined == "step");
  BOOST_TEST(!check(resolved(text)).protocol.has_value());
}

BOOST_AUTO_TEST_CASE(a_value_between_two_borders_needs_a_rule) {
  const std::string text =
      measuring(R"(<rule go="treat"><if fact="glucose" below="very-low"/></rule>)" + kTreatUnknown + kWellAtLeast);
  BOOST_TEST(
      gap(with_threshold(
          text,
          R"(<glucose id="very-low" mg-dl="54" mmol-l="3.0" least="50 mg/dL" most="60 mg/dL" source="table"><en>Very low</en></glucose>)")) ==
      "glucose 54 mg/dL");
}

BOOST_AUTO_TEST_CASE(a_gap_in_mg_per_dl_alone_is_found) {
  // 66 and 67 mg/dL are both printed as 3.7 mmol/L: only the one family has room between the two. In the other both
  // rules take 3.7, and that is told as well.
  const std::string text = measuring(R"(<rule go="treat"><if fact="glucose" at-most="a"/></rule>)" + kTreatUnknown +
                                     R"(<rule go="well"><if fact="glucose" at-least="b"/></rule>)");
  const std::string borders =
      R"(<glucose id="a" mg-dl="66" mmol-l="3.7" least="60 mg/dL" most="100 mg/dL" source="table"><en>A</en></glucose>
    <glucose id="b" mg-dl="67" mmol-l="3.7" least="60 mg/dL" most="100 mg/dL" source="table"><en>B</en></glucose>)";
  const std::vector<Finding> found = checked(with_threshold(text, borders));
  BOOST_TEST_REQUIRE(found.size() == 2U);
  BOOST_TEST(found[0].kind.get<ValuesNotCovered>().example == "glucose 66.1 mg/dL");
  BOOST_TEST(found[1].kind.get<BorderTakenTwice>().example == "glucose 3.7 mmol/L");
}

BOOST_AUTO_TEST_CASE(a_gap_in_mmol_per_l_alone_is_found) {
  const std::string text =
      measuring(kTreatBelow + kTreatUnknown + R"(<rule go="well"><if fact="glucose" at-least="b"/></rule>)");
  const std::string border =
      R"(<glucose id="b" mg-dl="70" mmol-l="4.0" least="60 mg/dL" most="100 mg/dL" source="table" pair-exception="table"><en>B</en></glucose>)";
  BOOST_TEST(gap(with_threshold(text, border)) == "glucose 3.9 mmol/L");
}

BOOST_AUTO_TEST_CASE(what_nobody_can_tell_needs_a_rule_of_its_own) {
  const auto found = only_check<UnknownNotCovered>(measuring(kTreatBelow + kWellAtLeast));
  BOOST_TEST(found.kind.step == "measure");
  BOOST_TEST(found.kind.fact == "glucose");
  BOOST_TEST_REQUIRE(found.because.has_value());
  BOOST_TEST(found.because->text == "no rule takes glucose: can't tell");
}

BOOST_AUTO_TEST_CASE(otherwise_never_takes_what_nobody_can_tell) {
  BOOST_TEST(only_check<UnknownNotCovered>(measuring(kTreatBelow + R"(<rule go="well" otherwise="yes"/>)")).kind.fact ==
             "glucose");
  BOOST_TEST(told(checked(measuring(kTreatBelow + kTreatUnknown + R"(<rule go="well" otherwise="yes"/>)"))) == "");
  // Of a question that no rule reads, too.
  const std::string text = measuring(kTreatBelow + kTreatUnknown + R"(<rule go="well" otherwise="yes"/>)", kBoth);
  BOOST_TEST(only_check<UnknownNotCovered>(text).kind.fact == "symptoms");
}

BOOST_AUTO_TEST_CASE(combinations_of_two_questions_need_a_rule) {
  const std::string text =
      measuring(R"(<rule go="treat"><if fact="glucose" below="low"/><if fact="symptoms" is="yes no"/></rule>)" +
                    kTreatUnknown + kWellAtLeast,
                kBoth);
  const auto found = only_check<UnknownNotCovered>(text);
  BOOST_TEST(found.kind.fact == "symptoms");
  BOOST_TEST(found.because->text == "no rule takes glucose 69 mg/dL, symptoms: can't tell");
  const std::string both_unknown =
      measuring(kTreatBelow + kWellAtLeast +
                    R"(<rule go="treat"><if fact="glucose" is="unknown"/><if fact="symptoms" is="yes no"/></rule>)",
                kBoth);
  BOOST_TEST(gap(both_unknown) == "glucose: can't tell, symptoms: can't tell");
}

BOOST_AUTO_TEST_CASE(a_gap_that_no_answer_closes_is_not_blamed_on_cannot_tell) {
  BOOST_TEST(gap(measuring(kTreatBelow + kTreatUnknown, kBoth)) == "glucose 70 mg/dL");
}

BOOST_AUTO_TEST_CASE(an_unknown_weight_meets_the_band_of_the_lightest_child_only) {
  const std::string bands =
      R"(<band weight-up-to="25 kg" mg-dl="70" mmol-l="3.9"/><band weight-from="25 kg" mg-dl="80" mmol-l="4.4"/>)";
  const std::string fixed =
      R"(<glucose id="ok" mg-dl="70" mmol-l="3.9" least="60 mg/dL" most="100 mg/dL" source="table"><en>Ok</en></glucose>)";
  const std::string between =
      R"(<rule go="call"><if fact="weight" is="unknown"/><if fact="glucose" at-least="ok" below="low"/></rule>)";
  const std::string text = measuring(between + kTreatBelow + kTreatUnknown + kWellAtLeast);
  BOOST_TEST(only_check<RuleNeverMatches>(with_threshold(banded(text, bands), fixed)).kind.rule == 1);
}

BOOST_AUTO_TEST_CASE(children_counters_and_hours_are_part_of_a_table) {
  const std::string rest = kTreatUnknown + kWellAtLeast;
  BOOST_TEST(
      gap(measuring(
          R"(<rule go="treat"><if fact="glucose" below="low"/><if fact="delivery" is="pump injections"/></rule>)" +
          rest)) == "delivery: automatic-pump, glucose 69 mg/dL");
  BOOST_TEST(
      gap(measuring(
          R"(<rule go="treat"><if fact="glucose" below="low"/><if counter="treatments" at-least="most-treatments"/></rule>)" +
          rest)) == "glucose 69 mg/dL, counter treatments at 1");
  BOOST_TEST(
      gap(measuring(
          R"(<rule go="treat"><if fact="glucose" below="low"/><if clock-from="night" clock-up-to="morning"/></rule>)" +
          rest)) == "glucose 69 mg/dL, at 06:00");
  BOOST_TEST(gap(measuring(R"(<rule go="treat"><if fact="glucose" below="low"/><if done="sugar"/></rule>)" + rest)) ==
             "glucose 69 mg/dL, sugar not given");
  BOOST_TEST(
      gap(measuring(R"(<rule go="treat"><if fact="glucose" below="low"/><if fact="age" at-least="honey-age"/></rule>)" +
                    rest)) == "age 11 months, glucose 69 mg/dL");
}

BOOST_AUTO_TEST_CASE(a_weight_that_the_child_file_lacks_needs_a_rule) {
  const std::string heavy =
      R"(<weight id="heavy" value="25 kg" least="20 kg" most="30 kg" source="table"><en>Heavy</en></weight>)";
  const std::string text = measuring(
      R"(<rule go="treat"><if fact="weight" below="heavy"/></rule><rule go="well"><if fact="weight" at-least="heavy"/></rule>)",
      "");
  BOOST_TEST(only_check<UnknownNotCovered>(with_threshold(text, heavy)).kind.fact == "weight");
}

BOOST_AUTO_TEST_CASE(a_border_that_moves_with_age_leaves_no_gap_in_its_own_table) {
  const std::string bands =
      R"(<band age-up-to="6 a" mg-dl="90" mmol-l="5.0"/><band age-from="6 a" mg-dl="70" mmol-l="3.9"/>)";
  BOOST_TEST(told(checked(banded(small_protocol(), bands))) == "");
  // Against a border that does not move, the toddler's part of the table is open.
  const std::string fixed =
      R"(<glucose id="ok" mg-dl="80" mmol-l="4.4" least="60 mg/dL" most="100 mg/dL" source="table"><en>Ok</en></glucose>)";
  const std::string text =
      measuring(R"(<rule go="treat"><if fact="glucose" below="ok"/></rule>)" + kTreatUnknown + kWellAtLeast);
  BOOST_TEST(gap(with_threshold(banded(text, bands), fixed)) == "age 4 years, glucose 80 mg/dL");
}

BOOST_AUTO_TEST_CASE(an_age_is_told_in_years_and_months) {
  const auto gap_below = [](const std::string& age) {
    const std::string border =
        R"(<age id="grown" value=")" + age + R"(" least="1 mo" most="10 a" source="table"><en>Grown</en></age>)";
    const std::string grown = kPaleOnes + R"(<if fact="age" at-least="grown"/></rule>
                                             <rule go="well"><if fact="age" at-least="grown"/></rule>)";
    return gap(with_threshold(measuring(grown, kAskPale), border));
  };
  BOOST_TEST(gap_below("5 a") == "age 4 years");
  BOOST_TEST(gap_below("2 a") == "age 1 year");
  BOOST_TEST(gap_below("12 mo") == "age 11 months");
  BOOST_TEST(gap_below("1 mo") == "age under 1 month");
  const std::string between =
      R"(<age id="a" value="29 mo" least="1 mo" most="10 a" source="table"><en>A</en></age>
         <age id="b" value="31 mo" least="1 mo" most="10 a" source="table"><en>B</en></age>)";
  const std::string around = kPaleOnes + R"(<if fact="age" at-most="a"/></rule>
                                            <rule go="well"><if fact="age" at-most="a"/></rule>
                                            <rule go="well"><if fact="age" at-least="b"/></rule>)";
  BOOST_TEST(gap(with_threshold(measuring(around, kAskPale), between)) == "age 2 years 6 months");
}

BOOST_AUTO_TEST_CASE(what_no_meter_shows_as_a_number_is_told_as_lo_and_hi) {
  const auto glucose = [](const std::string& id, const std::string& mg_dl, const std::string& mmol_l) {
    return R"(<glucose id=")" + id + R"(" mg-dl=")" + mg_dl + R"(" mmol-l=")" + mmol_l +
           R"(" least="10 mg/dL" most="700 mg/dL" source="table" pair-exception="table"><en>B</en></glucose>)";
  };
  const std::string shown = R"(<rule go="treat"><if fact="glucose" at-least="least" at-most="most"/></rule>)";
  const std::string ends = glucose("least", "20", "1.1") + glucose("most", "600", "33.3");
  BOOST_TEST(gap(with_threshold(measuring(kTreatUnknown + shown), ends)) == "glucose LO");
  const std::string low = R"(<rule go="treat"><if fact="glucose" below="least"/></rule>)";
  BOOST_TEST(gap(with_threshold(measuring(kTreatUnknown + shown + low), ends)) == "glucose HI");
  // Nobody can have a reading between two borders beyond the meter: that is no gap.
  const std::string beyond = R"(<rule go="treat"><if fact="glucose" at-least="beyond"/></rule>)";
  BOOST_TEST(told(checked(with_threshold(measuring(kTreatUnknown + shown + low + beyond),
                                         ends + glucose("beyond", "610", "33.9")))) == "");
}

BOOST_AUTO_TEST_CASE(a_watch_takes_its_answers_before_the_rules_unless_the_step_handles_it) {
  const std::string asks_awake = R"(<ask fact="awake"/>)";
  const std::string rules = R"(<rule go="well"><if fact="awake" is="yes confused"/></rule>)";
  const auto twice = checked(measuring(rules, asks_awake));
  for (const Finding& finding : twice) BOOST_TEST(!finding.kind.is<UnknownNotCovered>());
  std::string handling = changed(small_protocol(), R"(<rule go="crew"/>)",
                                 asks_awake + R"(<rule go="crew"><if fact="awake" is="yes confused"/></rule>)");
  const std::vector<Finding> findings = checked(handling);
  BOOST_TEST_REQUIRE(findings.size() == 2U);
  BOOST_TEST(findings[0].kind.get<ValuesNotCovered>().example == "awake: no");
  BOOST_TEST(findings[1].kind.get<UnknownNotCovered>().fact == "awake");
}

BOOST_AUTO_TEST_SUITE_END()

BOOST_AUTO_TEST_SUITE(dead_rules)

BOOST_AUTO_TEST_CASE(a_rule_behind_one_that_takes_everything_is_told_with_it) {
  const std::string text =
      measuring(kTreatBelow + kTreatUnknown + kWellAtLeast +
                R"(<rule go="well"><if fact="glucose" below="low"/><if fact="delivery" is="pump"/></rule>)");
  const auto found = only_check<RuleNeverMatches>(text);
  BOOST_TEST(found.kind.rule == 4);
  BOOST_TEST(found.kind.step == "measure");
  BOOST_TEST(found.kind.earlier == 1);
  BOOST_TEST(found.underlined == "rule");
  BOOST_TEST_REQUIRE(found.because.has_value());
  BOOST_TEST_REQUIRE(found.because->where.has_value());
  BOOST_TEST(underlined(text, *found.because->where) == "rule");
}

BOOST_AUTO_TEST_CASE(a_rule_that_several_take_together_names_none_of_them) {
  const auto found =
      only_check<RuleNeverMatches>(measuring(kTreatBelow + kTreatUnknown + kWellAtLeast + R"(<rule go="call"/>)"));
  BOOST_TEST(found.kind.rule == 4);
  BOOST_TEST(found.kind.earlier == 0);
}

BOOST_AUTO_TEST_CASE(conditions_that_never_hold_together_are_dead) {
  const auto found = only_check<RuleNeverMatches>(
      measuring(R"(<rule go="call"><if fact="glucose" below="low"/><if fact="glucose" at-least="low"/></rule>)" +
                kTreatBelow + kTreatUnknown + kWellAtLeast));
  BOOST_TEST(found.kind.rule == 1);
  BOOST_TEST(found.because->text == "its conditions never hold together");
}

// Two thresholds whose ranges say which is meant to be the lower one.
std::string with_very_low(const std::string& mg_dl, const std::string& mmol_l, const std::string& rules) {
  return with_threshold(measuring(rules),
                        R"(<glucose id="very-low" mg-dl=")" + mg_dl + R"(" mmol-l=")" + mmol_l +
                            R"(" least="45 mg/dL" most="80 mg/dL" source="table"><en>V</en></glucose>)");
}

BOOST_AUTO_TEST_CASE(thresholds_that_changed_places_are_told_and_not_the_rules_they_silence) {
  const std::string below = R"(<rule go="call"><if fact="glucose" below="very-low"/></rule>)";
  const std::string text = with_very_low("72", "4.0", below + kTreatBelow + kTreatUnknown + kWellAtLeast);
  const auto found = only_check<ThresholdsCrossed>(text);
  BOOST_TEST(found.kind.lower == "very-low");
  BOOST_TEST(found.kind.lower_value == "72 mg/dL");
  BOOST_TEST(found.kind.upper == "low");
  BOOST_TEST(found.underlined == "72");
  BOOST_TEST(underlined(text, found.because.value().where.value()) == "70");
  BOOST_TEST(
      only_check<ThresholdsCrossed>(with_very_low("70", "3.9", below + kTreatBelow + kTreatUnknown + kWellAtLeast))
          .kind.lower_value == "70 mg/dL");
}

BOOST_AUTO_TEST_CASE(thresholds_that_leave_nothing_between_them_are_told) {
  const std::string between = R"(<rule go="call"><if fact="glucose" at-least="very-low" below="low"/></rule>)";
  const auto found =
      only_check<ThresholdsCrossed>(with_very_low("72", "4.0", between + kTreatBelow + kTreatUnknown + kWellAtLeast));
  BOOST_TEST(found.kind.lower == "very-low");
}

BOOST_AUTO_TEST_CASE(rules_in_the_wrong_order_are_told_as_rules) {
  const std::string below = R"(<rule go="call"><if fact="glucose" below="very-low"/></rule>)";
  const auto found =
      only_check<RuleNeverMatches>(with_very_low("54", "3.0", kTreatBelow + below + kTreatUnknown + kWellAtLeast));
  BOOST_TEST(found.kind.rule == 2);
  BOOST_TEST(found.kind.earlier == 1);
}

BOOST_AUTO_TEST_CASE(a_rule_that_matches_in_one_unit_family_only_is_alive) {
  const std::string border =
      R"(<glucose id="a" mg-dl="71" mmol-l="3.9" least="60 mg/dL" most="100 mg/dL" source="table"><en>A</en></glucose>)";
  const std::string text = measuring(kTreatBelow + kTreatUnknown +
                                     R"(<rule go="call"><if fact="glucose" below="a"/></rule>)" + kWellAtLeast);
  BOOST_TEST(told(checked(with_threshold(text, border))) == "");
}

BOOST_AUTO_TEST_CASE(rules_of_a_step_that_ends_are_dead) {
  const auto found =
      only_check<RuleNeverMatches>(with(R"(<headline><en>Stay, from {night} to {morning}.</en></headline>)",
                                        R"(<headline><en>Stay.</en></headline><rule go="well"/>)"));
  BOOST_TEST(found.kind.step == "crew");
}

BOOST_AUTO_TEST_CASE(a_rule_reads_only_what_its_step_asks) {
  const auto found = only_check<FactNotAsked>(measuring(R"(<rule go="call"><if fact="symptoms" is="yes"/></rule>)" +
                                                        kTreatBelow + kTreatUnknown + kWellAtLeast));
  BOOST_TEST(found.kind.fact == "symptoms");
  BOOST_TEST(found.kind.step == "measure");
  BOOST_TEST(found.underlined == "if");
}

BOOST_AUTO_TEST_SUITE_END()
