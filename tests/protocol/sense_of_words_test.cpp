#include <boost/test/unit_test.hpp>

#include "tests/protocol/small_protocol.hpp"

using namespace rushlight;
using namespace rushlight::tests;

namespace {

/// The second question of the small protocol's first step, with this rule in front of the others.
std::string asking(const std::string& condition) {
  return with(R"(<ask fact="glucose"/>
      <rule go="treat"><if fact="glucose" below="low"/></rule>
      <rule go="treat"><if fact="glucose" is)",
              R"(<ask fact="glucose"/>
      <rule go="well">)" +
                  condition + R"(</rule>
      <rule go="treat"><if fact="glucose" below="low"/></rule>
      <rule go="treat"><if fact="glucose" is)");
}

const Condition& first_condition(const Protocol& protocol) { return protocol.steps[0].rules[0].when.at(0); }

}  // namespace

BOOST_AUTO_TEST_SUITE(conditions)

BOOST_AUTO_TEST_CASE(every_kind_of_condition_is_read) {
  const Protocol compares = resolved(asking(R"(<if fact="glucose" at-most="low"/>)"));
  BOOST_TEST((std::get<Compares>(first_condition(compares).test).comparison == Comparison::at_most));
  const Protocol is = resolved(asking(R"(<if fact="awake" is="confused unknown"/>)"));
  BOOST_TEST(std::get<Is>(first_condition(is).test).options == (kUnknownBit | 2U));
  const Protocol counted = resolved(asking(R"(<if counter="treatments" at-least="most-treatments"/>)"));
  BOOST_TEST(std::get<CountedAtLeast>(first_condition(counted).test).counter.index == 0);
  const Protocol done = resolved(asking(R"(<if done="sugar"/>)"));
  BOOST_TEST((std::get<WasGiven>(first_condition(done).test).action == *done.action_named("sugar")));
  const Protocol clock = resolved(asking(R"(<if clock-from="night" clock-up-to="morning"/>)"));
  BOOST_TEST(clock[std::get<WithinClock>(first_condition(clock).test).up_to].name == "morning");
}

BOOST_AUTO_TEST_CASE(two_comparisons_in_one_element_must_both_hold) {
  const std::string text = asking(R"(<if fact="glucose" above="low" at-most="low"/>)");
  BOOST_TEST(resolved(text).steps[0].rules[0].when.size() == 2U);
}

BOOST_AUTO_TEST_CASE(a_question_is_compared_only_as_its_kind_allows) {
  const auto found = only<WrongFactKind>(asking(R"(<if fact="symptoms" at-least="low"/>)"));
  BOOST_TEST(found.kind.fact == "symptoms");
  BOOST_TEST(found.kind.kind == "yes-no");
  BOOST_TEST(found.kind.comparison == "at-least");
  BOOST_TEST(found.underlined == "low");
  BOOST_TEST(only<WrongFactKind>(asking(R"(<if fact="total-daily-dose" below="few-grams"/>)")).kind.kind == "insulin");
}

BOOST_AUTO_TEST_CASE(a_limit_is_of_the_kind_of_what_it_limits) {
  const auto found = only<WrongThresholdKind>(asking(R"(<if fact="glucose" below="recheck"/>)"));
  BOOST_TEST(found.kind.threshold == "recheck");
  BOOST_TEST(found.kind.kind == "time");
  BOOST_TEST(found.kind.wanted == "glucose");
  BOOST_TEST(only<WrongThresholdKind>(asking(R"(<if counter="treatments" at-least="low"/>)")).kind.wanted == "count");
  BOOST_TEST(only<WrongThresholdKind>(asking(R"(<if clock-from="night" clock-up-to="low"/>)")).kind.wanted == "clock");
  BOOST_TEST(only<WrongThresholdKind>(asking(R"(<if fact="age" below="low"/>)")).kind.wanted == "age");
}

BOOST_AUTO_TEST_CASE(an_answer_that_the_question_does_not_take_is_refused) {
  const auto found = only<WrongWord>(asking(R"(<if fact="awake" is="yes sleepy"/>)"));
  BOOST_TEST(found.kind.what == "answer to `awake`");
  BOOST_TEST((found.kind.allowed == std::vector<std::string>{"yes", "confused", "no", "unknown"}));
  BOOST_TEST(found.underlined == "sleepy");
  BOOST_TEST((only<WrongWord>(asking(R"(<if fact="glucose" is="low"/>)")).kind.allowed ==
              std::vector<std::string>{"unknown"}));
  BOOST_TEST(only<WrongWord>(with(R"(<sign fact="awake" is="no">)", R"(<sign fact="awake" is="asleep">)")).underlined ==
             "asleep");
  BOOST_TEST(
      only<WrongWord>(with(R"(records="pump-paused" as="yes")", R"(records="pump-paused" as="on")")).underlined ==
      "on");
}

BOOST_AUTO_TEST_CASE(a_condition_says_what_it_is_about) {
  BOOST_TEST(only<MissingAttribute>(asking(R"(<if fact="glucose"/>)")).kind.attribute == "is");
  BOOST_TEST(only<MissingAttribute>(asking(R"(<if/>)")).kind.attribute == "fact");
  BOOST_TEST(only<MissingAttribute>(asking(R"(<if clock-from="night"/>)")).kind.attribute == "clock-up-to");
  BOOST_TEST(only<MissingAttribute>(asking(R"(<if counter="treatments"/>)")).kind.attribute == "at-least");
  BOOST_TEST(only<UnknownAttribute>(asking(R"(<if counter="treatments" at-least="most-treatments" below="low"/>)"))
                 .underlined == "low");
}

BOOST_AUTO_TEST_CASE(what_is_shown_depends_on_the_child_counters_and_what_was_done_only) {
  const std::string row = R"(<if fact="weight" is="unknown"/></row>)";
  BOOST_CHECK_NO_THROW(
      resolved(with(row, R"(<if done="sugar"/><if counter="treatments" at-least="most-treatments"/></row>)")));
  BOOST_CHECK_NO_THROW(resolved(with(row, R"(<if fact="symptoms" is="yes unknown no"/></row>)")));
  BOOST_TEST(only<UnknownId>(with(R"(<if fact="delivery" is="pump"/>)", R"(<if fact="awake" is="yes"/>)")).underlined ==
             "awake");
  const std::string food = R"(<if fact="age" at-least="honey-age"/>)";
  BOOST_TEST(only<UnknownAttribute>(with(food, R"(<if done="sugar"/>)")).kind.attribute == "done");
  BOOST_TEST(
      only<UnknownAttribute>(with(food, R"(<if counter="treatments" at-least="most-treatments"/>)")).kind.attribute ==
      "counter");
}

BOOST_AUTO_TEST_SUITE_END()

BOOST_AUTO_TEST_SUITE(questions)

BOOST_AUTO_TEST_CASE(what_the_child_file_knows_stands_first) {
  const Protocol protocol = resolved();
  BOOST_TEST(protocol.facts[0].name == "age");
  BOOST_TEST(protocol[fact_id(ChildFact::delivery)].options[2].name == "automatic-pump");
  BOOST_TEST(protocol[fact_id(ChildFact::rescue)].options[4].name == "none");
  BOOST_TEST(protocol.facts[kChildFacts].name == "awake");
  BOOST_TEST(protocol[*protocol.fact_named("symptoms")].yes_no);
  BOOST_TEST(protocol[*protocol.fact_named("symptoms")].options.size() == 2U);
}

BOOST_AUTO_TEST_CASE(what_the_child_file_knows_is_not_asked) {
  BOOST_TEST(only<UnknownId>(with(R"(<opening><ask fact="awake"/>)", R"(<opening><ask fact="age"/>)")).kind.what ==
             "question");
  BOOST_TEST(
      only<RepeatedId>(with(R"(<opening><ask fact="awake"/>)", R"(<opening><ask fact="awake"/><ask fact="awake"/>)"))
          .kind.what == "question");
}

BOOST_AUTO_TEST_CASE(options_have_names_of_their_own) {
  BOOST_TEST(only<RepeatedId>(with(R"(<option id="confused">)", R"(<option id="yes">)")).kind.what == "option");
  BOOST_TEST(only<RepeatedId>(with(R"(<option id="confused">)", R"(<option id="unknown">)")).underlined == "unknown");
}

BOOST_AUTO_TEST_SUITE_END()

BOOST_AUTO_TEST_SUITE(doses_and_foods)

BOOST_AUTO_TEST_CASE(amounts_are_in_the_unit_of_the_dose) {
  BOOST_TEST(only<WrongThresholdKind>(with(R"(<row fixed="few-grams")", R"(<row fixed="recheck")")).kind.wanted ==
             "carbohydrate");
  BOOST_TEST(
      only<WrongThresholdKind>(with(R"(<row per-kg="per-kilogram")", R"(<row per-kg="few-grams")")).kind.wanted ==
      "carbohydrate-per-weight");
  BOOST_TEST(only<WrongThresholdKind>(with(R"(least="few-grams")", R"(least="per-kilogram")")).underlined ==
             "per-kilogram");
  BOOST_TEST(only<WrongUnit>(with(R"(to="one-gram")", R"(to="five-ml")")).kind.wanted == "g");
  BOOST_TEST(only<WrongUnit>(with(R"(step="five-ml")", R"(step="one-gram")")).kind.wanted == "mL");
}

BOOST_AUTO_TEST_CASE(a_dose_in_mg_takes_medicine_and_is_not_given_by_weight) {
  const std::string mg = changed(
      with(R"(unit="g" round="up" to="one-gram")", R"(unit="mg" round="up" to="half")"), "<age id=\"honey-age\"",
      R"(<medicine id="half" value="0.5 mg" least="0.1 mg" most="1 mg" source="table"><en>Half</en></medicine>
    <age id="honey-age")");
  const std::string fixed = changed(changed(mg, R"(<row fixed="few-grams")", R"(<row fixed="half")"),
                                    R"(<row per-kg="per-kilogram" least="few-grams" most="many-grams")",
                                    R"(<row fixed="half" least="half" most="half")");
  // No dose in grams is left, so nothing is named as food.
  const std::string no_food = changed(fixed, "Give {sugar-dose} of {food}.", "Give {sugar-dose}.");
  BOOST_TEST(only<WrongUse>(no_food).kind.what == "`sugar-dose` is in mg, which is not how by-mouth is given");
}

BOOST_AUTO_TEST_CASE(a_row_has_one_cell) {
  BOOST_TEST(
      only<UnknownAttribute>(with(R"(<row fixed="few-grams")", R"(<row fixed="few-grams" per-kg="per-kilogram")"))
          .kind.attribute == "per-kg");
  BOOST_TEST(only<MissingAttribute>(with(R"(<row fixed="few-grams")", R"(<row)")).kind.attribute == "fixed");
  BOOST_TEST(only<MissingLanguage>(with(R"(<row fixed="few-grams")", R"(<row withheld="yes")")).kind.element == "row");
}

BOOST_AUTO_TEST_CASE(nothing_is_rounded_to_a_multiple_of_zero) {
  const auto found =
      only<BadNumber>(with(R"(id="one-gram" value="1 g" least="1 g")", R"(id="one-gram" value="0 g" least="0 g")"));
  BOOST_TEST(found.underlined == "one-gram");
}

BOOST_AUTO_TEST_SUITE_END()

BOOST_AUTO_TEST_SUITE(actions_and_waits)

BOOST_AUTO_TEST_CASE(every_outcome_of_the_kind_is_followed_by_something) {
  const auto found = only<MissingOutcome>(with(R"(<on outcome="vomited" go="call"/>)", ""));
  BOOST_TEST(found.kind.action == "sugar");
  BOOST_TEST(found.kind.kind == "by-mouth");
  BOOST_TEST(found.kind.outcome == "vomited");
  BOOST_TEST(only<RepeatedId>(with(R"(<on outcome="vomited" go="call"/>)",
                                   R"(<on outcome="vomited" go="call"/><on outcome="part" go="call"/>)"))
                 .kind.what == "outcome");
  BOOST_TEST(only<WrongWord>(with(R"(on the side.</en>)", R"(on the side.</en><on outcome="refused" go="call"/>)"))
                 .kind.what == "outcome of position");
  BOOST_TEST(only<MissingAttribute>(with(R"(<on outcome="vomited" go="call"/>)", R"(<on outcome="vomited"/>)"))
                 .kind.attribute == "go");
}

BOOST_AUTO_TEST_CASE(a_call_says_whom_and_how_long_to_wait_for_an_answer) {
  BOOST_TEST(only<MissingAttribute>(with(R"( contact="on-call" answer-within="late")", R"( answer-within="late")"))
                 .kind.attribute == "contact");
  BOOST_TEST(only<MissingAttribute>(with(R"(contact="on-call" answer-within="late")", R"(contact="on-call")"))
                 .kind.attribute == "answer-within");
  BOOST_TEST(only<WrongThresholdKind>(
                 with(R"(contact="on-call" answer-within="late")", R"(contact="on-call" answer-within="low")"))
                 .kind.wanted == "time");
  BOOST_TEST(only<WrongWord>(with(R"(contact="on-call")", R"(contact="emergency")")).kind.what == "contact");
  BOOST_TEST(only<UnknownAttribute>(with(R"(kind="position")", R"(kind="position" contact="clinic")")).kind.attribute ==
             "contact");
}

BOOST_AUTO_TEST_CASE(only_what_is_given_has_a_dose) {
  BOOST_TEST(
      only<UnknownAttribute>(with(R"(kind="position")", R"(kind="position" dose="sugar-dose")")).kind.attribute ==
      "dose");
  BOOST_TEST(
      only<UnknownId>(with(R"(kind="by-mouth" dose="sugar-dose")", R"(kind="by-mouth" dose="sugardose")")).kind.what ==
      "dose");
}

BOOST_AUTO_TEST_CASE(a_wait_starts_after_an_action_of_its_own_step) {
  const auto found = only<UnknownId>(with(R"(after="sugar")", R"(after="phone")"));
  BOOST_TEST(found.kind.what == "action of this step");
  BOOST_TEST((found.kind.known == std::vector<std::string>{"sugar", "pause"}));
  BOOST_TEST(only<MissingAttribute>(with(R"( start-within="late")", "")).kind.attribute == "start-within");
  BOOST_TEST(
      only<UnknownAttribute>(with(R"( after="sugar" start-within="late")", R"( start-within="late")")).kind.attribute ==
      "start-within");
  BOOST_TEST(
      only<WrongThresholdKind>(with(R"(timer="recheck" lasts="recheck")", R"(timer="recheck" lasts="few-grams")"))
          .kind.wanted == "time");
}

BOOST_AUTO_TEST_CASE(what_an_action_records_is_a_question_with_options) {
  BOOST_TEST(only<WrongFactKind>(with(R"(records="pump-paused")", R"(records="glucose")")).kind.comparison ==
             "records");
  BOOST_TEST(only<UnknownId>(with(R"(records="pump-paused")", R"(records="age")")).kind.what == "question");
  BOOST_TEST(
      only<MissingAttribute>(with(R"(records="pump-paused" as="yes")", R"(records="pump-paused")")).kind.attribute ==
      "as");
  BOOST_TEST(only<MissingAttribute>(with(R"(starts="resume" lasts="late")", R"(starts="resume")")).kind.attribute ==
             "lasts");
}

BOOST_AUTO_TEST_SUITE_END()
