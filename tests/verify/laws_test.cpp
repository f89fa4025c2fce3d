#include "verify/laws.hpp"

#include <boost/test/unit_test.hpp>

#include "protocol/safety_rules.hpp"
#include "read/safety_from_xml.hpp"
#include "tests/verify/small_checks.hpp"

using namespace rushlight;
using namespace rushlight::tests;

namespace {

/// What the small protocol, or a change of it, does against these laws.
std::vector<Finding> against(const std::string& laws, const std::string& protocol = small_protocol()) {
  const std::string text =
      "<safety set=\"example\"><sources><source id=\"practice\" common-practice=\"yes\"/></sources>" + laws +
      "</safety>";
  const Read<SafetyDraft> draft = safety_from_xml(text, "safety.xml");
  if (!draft.value || has_error(draft.findings)) throw std::runtime_error(told(draft.findings));
  Checked checked = check(resolved(protocol));
  if (!checked.protocol) throw std::runtime_error(told(checked.findings));
  Read<SafetyRules> rules = safety_rules_of(*draft.value, checked.protocol->protocol());
  if (!rules.value) throw std::runtime_error(told(rules.findings));
  return broken_laws(*checked.protocol, *rules.value);
}

template <class K>
K broken(const std::string& laws, const std::string& protocol = small_protocol()) {
  return only<K>(against(laws, protocol), protocol).kind;
}

std::string never(const std::string& what, const std::string& when) {
  return "<never id=\"law\" protocol=\"low\" " + what + " source=\"practice\">" + when + "</never>";
}

std::string monotone(const std::string& fact, const std::string& worse, const std::string& when = "") {
  return "<monotone id=\"law\" protocol=\"low\" fact=\"" + fact + "\" worse=\"" + worse + "\" source=\"practice\">" +
         when + "</monotone>";
}

const std::string kLow = R"(<if fact="glucose" below="low"/>)";
const std::string kNotLow = R"(<if fact="glucose" at-least="low"/>)";

/// Another border for the laws, which no rule reads.
std::string with_border(const std::string& text) {
  return with_threshold(
      text,
      R"(    <glucose id="very-low" mg-dl="54" mmol-l="3.0" least="40 mg/dL" most="65 mg/dL" source="table"><en>Very low</en></glucose>
)");
}

}  // namespace

BOOST_AUTO_TEST_SUITE(laws)

BOOST_AUTO_TEST_CASE(a_step_that_does_what_it_must_never_is_told_with_the_child_it_does_it_to) {
  const std::vector<Finding> findings = against(never(R"(does="by-mouth")", kLow));
  BOOST_TEST(findings.size() == 2U, told(findings));  // when it is measured first, and again after the wait
  const auto& found = findings.front().kind.get<NeverBroken>();
  BOOST_TEST(found.law == "law");
  BOOST_TEST(found.step == "treat");
  BOOST_TEST(found.example == "glucose 69 mg/dL");
  BOOST_TEST(found.offence == "does `sugar` (by-mouth)");
  BOOST_TEST(underlined(small_protocol(), findings.front().where) == "rule");
}

BOOST_AUTO_TEST_CASE(what_a_rule_above_has_taken_breaks_no_law) {
  BOOST_TEST(told(against(never(R"(does="by-mouth")", kNotLow))) == "");
  BOOST_TEST(told(against(never(
                 R"(calmer-than="clinic-now")",
                 R"(<if fact="glucose" is="unknown"/><if counter="treatments" at-least="most-treatments"/>)"))) != "");
}

BOOST_AUTO_TEST_CASE(a_step_calmer_than_the_law_allows_is_told) {
  const auto found = broken<NeverBroken>(
      never(R"(calmer-than="clinic-now")", kNotLow + R"(<if counter="treatments" at-least="most-treatments"/>)"),
      changed(small_protocol(), R"(<rule go="well" resets="treatments"><if fact="glucose" at-least="low"/></rule>)",
              R"(<rule go="call"><if fact="glucose" at-least="low"/></rule>)"));
  BOOST_TEST(found.step == "well");
  BOOST_TEST(found.offence == "is `home`, calmer than `clinic-now`");
}

BOOST_AUTO_TEST_CASE(a_law_with_a_border_of_its_own_is_as_exact_as_a_rule) {
  const auto found =
      against(never(R"(does="by-mouth")", R"(<if fact="glucose" below="very-low"/>)"), with_border(small_protocol()))
          .front()
          .kind.get<NeverBroken>();
  BOOST_TEST(found.example == "glucose 53 mg/dL");
}

BOOST_AUTO_TEST_CASE(what_a_step_does_not_ask_is_not_known_there) {
  BOOST_TEST(broken<LawIdle>(never(R"(does="by-mouth")", R"(<if fact="symptoms" is="yes"/>)")).law == "law");
}

BOOST_AUTO_TEST_CASE(lower_leads_nowhere_calmer_in_the_small_protocol) {
  BOOST_TEST(told(against(monotone("glucose", "lower"))) == "");
}

BOOST_AUTO_TEST_CASE(a_lower_glucose_that_leads_to_a_calmer_step_is_told_with_both_children) {
  const std::string text = with_border(measuring(R"(
      <rule go="treat"><if fact="glucose" below="very-low"/></rule>
      <rule go="call"><if fact="glucose" below="low"/></rule>
      <rule go="treat"><if fact="glucose" is="unknown"/></rule>
      <rule go="well"><if fact="glucose" at-least="low"/></rule>)"));
  const auto found = broken<WorseIsCalmer>(monotone("glucose", "lower"), text);
  BOOST_TEST(found.worse == "glucose 53 mg/dL");
  BOOST_TEST(found.worse_step == "treat");
  BOOST_TEST(found.worse_urgency == "home");
  BOOST_TEST(found.better == "glucose 54 mg/dL");
  BOOST_TEST(found.better_step == "call");
  BOOST_TEST(found.better_urgency == "clinic-now");
}

BOOST_AUTO_TEST_CASE(conditions_say_where_worse_has_this_direction) {
  const std::string text = with_border(measuring(R"(
      <rule go="treat"><if fact="glucose" below="very-low"/></rule>
      <rule go="call"><if fact="glucose" below="low"/></rule>
      <rule go="treat"><if fact="glucose" is="unknown"/></rule>
      <rule go="well"><if fact="glucose" at-least="low"/></rule>)"));
  BOOST_TEST(told(against(monotone("glucose", "lower", R"(<if fact="glucose" at-least="very-low"/>)"), text)) == "");
  BOOST_TEST(told(against(monotone("glucose", "higher", R"(<if fact="glucose" below="low"/>)"), text)) == "");
}

BOOST_AUTO_TEST_CASE(a_law_for_which_fewer_ketones_are_worse_is_refused) {
  const std::string text = changed(small_protocol(), R"(    <yes-no id="symptoms">)",
                                   R"(    <ketones id="ketones"><ask><en>Ketones?</en></ask></ketones>
    <yes-no id="symptoms">)");
  BOOST_CHECK_EXCEPTION(against(monotone("ketones", "lower"), text), std::runtime_error,
                        [](const std::runtime_error& refused) {
                          return std::string(refused.what()).find("worse with a lower `ketones`") != std::string::npos;
                        });
  BOOST_CHECK_NO_THROW(against(monotone("ketones", "higher"), text));
}

BOOST_AUTO_TEST_CASE(a_law_that_can_refuse_nothing_says_so) {
  BOOST_TEST(broken<LawIdle>(never(R"(calmer-than="home")", kLow)).why == "nothing is calmer than `home`");
  BOOST_TEST(broken<LawIdle>(never(R"(calmer-than="emergency")", kLow + kNotLow)).why ==
             "no child can meet all its conditions at once");
  BOOST_TEST(broken<LawIdle>(monotone("glucose", "lower", kLow + kNotLow)).why ==
             "no child can meet all its conditions at once");
  BOOST_TEST(broken<LawIdle>(never(R"(does="by-mouth")", R"(<if fact="symptoms" is="yes"/>)")).why ==
             "no step asks for all that it reads");
}

BOOST_AUTO_TEST_CASE(only_children_who_are_alike_in_all_else_are_compared) {
  // The lower glucose goes to a calmer step only for a pump, the higher one to a graver step only without.
  const std::string text = measuring(R"(
      <rule go="treat"><if fact="glucose" below="low"/><if fact="delivery" is="pump"/></rule>
      <rule go="call"><if fact="glucose" below="low"/></rule>
      <rule go="treat"><if fact="delivery" is="pump"/></rule>
      <rule go="call"/>)");
  BOOST_TEST(told(against(monotone("glucose", "lower"), text)) == "");
}

BOOST_AUTO_TEST_CASE(a_text_that_is_hard_to_read_is_a_warning_with_its_longest_word) {
  const std::string text = with(
      R"(<headline><en>Measure.</en></headline>)",
      R"(<headline><en>Immediately after administration of carbohydrate-containing refreshments, reevaluate the capillary glucose concentration and additionally consider communicating with the responsible multidisciplinary team members.</en></headline>)");
  const std::vector<Finding> findings =
      against(R"(<reading language="en" grade-at-most="6" source="practice"/>)", text);
  BOOST_TEST_REQUIRE(findings.size() == 1U, told(findings));
  BOOST_TEST((findings.front().severity == Severity::warning));
  const auto& found = findings.front().kind.get<HardToRead>();
  BOOST_TEST(found.what == "headline of step `measure` is");
  BOOST_TEST(found.word == "carbohydrate-containing");
  BOOST_TEST(found.sentence == 21);
}

BOOST_AUTO_TEST_CASE(a_short_line_is_not_judged_alone) {
  const std::string text =
      with(R"(<headline><en>Measure.</en></headline>)", R"(<headline><en>Hypoglycemia. Immediately.</en></headline>)");
  BOOST_TEST(told(against(R"(<reading language="en" grade-at-most="6" source="practice"/>)", text)) == "");
}

BOOST_AUTO_TEST_CASE(a_language_that_the_protocol_does_not_speak_is_not_judged) {
  BOOST_TEST(told(against(R"(<reading language="es" ease-at-least="99" source="practice"/>)")) == "");
}

BOOST_AUTO_TEST_CASE(a_step_that_looks_again_before_sugar_can_work_is_told_at_its_wait) {
  const auto law = [](const std::string& least, const std::string& most) {
    return "<look id=\"law\" protocol=\"low\" after=\"sugar-dose\" at-least=\"" + least + "\" at-most=\"" + most +
           "\" source=\"practice\"/>";
  };
  BOOST_TEST(told(against(law("15 min", "15 min"))) == "");
  const std::vector<Finding> findings = against(law("16 min", "20 min"));
  BOOST_REQUIRE(findings.size() == 1U);
  const auto& found = findings.front().kind.get<LookOutside>();
  BOOST_TEST(found.step == "treat");
  BOOST_TEST(found.threshold == "recheck");
  BOOST_TEST(found.time == "15 min");
  BOOST_TEST(underlined(small_protocol(), findings.front().where) == "wait");
  BOOST_TEST(broken<LookOutside>(law("5 min", "14 min")).most == "14 min");
}

BOOST_AUTO_TEST_CASE(an_emergency_call_that_may_wait_too_long_for_an_answer_is_told) {
  const std::string law = R"(<look id="law" protocol="low" urgency="emergency" at-most="5 min" source="practice"/>)";
  const auto found = broken<LookOutside>(law);
  BOOST_TEST(found.step == "emergency");
  BOOST_TEST(found.what == "waits for an answer to `help`");
  BOOST_TEST(found.time == "10 min");
  BOOST_TEST(
      told(against(R"(<look id="law" protocol="low" urgency="emergency" at-most="10 min" source="practice"/>)")) == "");
}

BOOST_AUTO_TEST_CASE(a_child_of_whom_nobody_can_tell_the_glucose_is_not_sent_to_sleep_as_one_who_is_not_low) {
  const std::string careless = changed(small_protocol(), R"(<rule go="treat"><if fact="glucose" is="unknown"/></rule>)",
                                       R"(<rule go="well"><if fact="glucose" is="unknown"/></rule>)");
  const auto found = broken<UnknownIsCalm>(monotone("glucose", "lower"), careless);
  BOOST_TEST(found.step == "measure");
  BOOST_TEST(found.fact == "glucose");
  BOOST_TEST(found.to == "well");
  BOOST_TEST(told(against(monotone("glucose", "lower"))) == "");
}

BOOST_AUTO_TEST_SUITE_END()
