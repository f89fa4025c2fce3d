#include "verify/in_time.hpp"

#include <boost/test/unit_test.hpp>

#include "protocol/safety_rules.hpp"
#include "read/safety_from_xml.hpp"
#include "tests/verify/small_checks.hpp"

using namespace rushlight;
using namespace rushlight::tests;

namespace {

/// What is found of one law over the small protocol, or a change of it.
InTime found_of(const std::string& limits, const std::string& when, const std::string& protocol = small_protocol()) {
  const std::string text =
      "<safety set=\"example\"><sources><source id=\"practice\" common-practice=\"yes\"/></sources>"
      "<within id=\"on-the-phone\" protocol=\"low\" come-to=\"clinic-now\" " +
      limits + " source=\"practice\">" + when + "</within></safety>";
  const Read<SafetyDraft> draft = safety_from_xml(text, "safety.xml");
  if (!draft.value || has_error(draft.findings)) throw std::runtime_error(told(draft.findings));
  const Protocol alone = resolved(protocol);
  const Read<SafetyRules> rules = safety_rules_of(*draft.value, alone);
  if (!rules.value) throw std::runtime_error(told(rules.findings));
  return calls_in_time(alone, alone, rules.value->within);
}

template <class K>
K broken(const InTime& found) {
  BOOST_TEST(found.shown.empty());
  if (found.findings.size() != 1) throw std::runtime_error("one finding was expected:\n" + told(found.findings));
  return found.findings.front().kind.get<K>();
}

const std::string kLow = R"(<if fact="glucose" below="low"/>)";
const std::string kInRange = R"(<if fact="glucose" at-least="low"/>)";

}  // namespace

BOOST_AUTO_TEST_SUITE(in_time)

BOOST_AUTO_TEST_CASE(a_law_that_every_night_keeps_is_shown_with_the_latest_call) {
  const InTime found = found_of(R"(at-once="30 min" late="70 min")", kLow);
  BOOST_TEST(told(found.findings) == "");
  BOOST_TEST_REQUIRE(found.shown.size() == 1U);
  BOOST_TEST(
      sentence(found.shown.front()) ==
      "a child with glucose below 70 mg/dL or 3.9 mmol/L (`low`) all night comes to `clinic-now` after 30 min at "
      "most when every question is answered at once, and after 1 h 10 min when answers come as late as the "
      "protocol lets them");
}

BOOST_AUTO_TEST_CASE(a_call_that_comes_a_minute_too_late_is_told_with_its_night) {
  const CallTooLate found = broken<CallTooLate>(found_of(R"(at-once="29 min" late="70 min")", kLow));
  BOOST_TEST(!found.late);
  BOOST_TEST(found.after == "30 min");
  BOOST_TEST(found.limit == "29 min");
  BOOST_TEST(found.walked);
  BOOST_TEST(found.night == "0 min: `measure`, `treat`; 15 min: `treat`; 30 min: `call`");
}

BOOST_AUTO_TEST_CASE(a_call_that_comes_too_late_is_told_with_the_longest_wait_of_its_night_and_where_it_stands) {
  const InTime found = found_of(R"(at-once="29 min" late="70 min")", kLow);
  BOOST_REQUIRE(found.findings.size() == 1U);
  BOOST_REQUIRE(found.findings.front().because);
  const Because& because = *found.findings.front().because;
  BOOST_TEST(because.text == "the longest wait of that night, 15 min, is in step `treat`");
  BOOST_TEST(underlined(small_protocol(), because.where.value()) == "wait");
}

BOOST_AUTO_TEST_CASE(late_answers_have_a_limit_of_their_own) {
  const CallTooLate found = broken<CallTooLate>(found_of(R"(at-once="30 min" late="69 min")", kLow));
  BOOST_TEST(found.late);
  BOOST_TEST(found.after == "1 h 10 min");
}

BOOST_AUTO_TEST_CASE(a_night_that_ends_without_a_call_is_told_once) {
  const CallNever found = broken<CallNever>(found_of(R"(at-once="30 min" late="70 min")", kInRange));
  BOOST_TEST(found.how == "ends at `well`");
  BOOST_TEST(found.walked);
  BOOST_TEST(found.night == "0 min: `measure`, `well`");
}

BOOST_AUTO_TEST_CASE(a_night_without_a_limit_goes_round_for_ever) {
  const std::string text = changed(
      small_protocol(),
      R"(<rule go="call"><if fact="glucose" below="low"/><if counter="treatments" at-least="most-treatments"/></rule>)",
      "");
  const CallNever found = broken<CallNever>(found_of(R"(at-once="30 min" late="70 min")", kLow, text));
  BOOST_TEST(found.how == "goes round for ever by `treat`");
  BOOST_TEST(found.walked);
}

BOOST_AUTO_TEST_CASE(a_night_that_goes_on_where_nobody_looked_is_told) {
  const std::string text = with(R"(<rule go="treat"><if fact="glucose" is="unknown"/></rule>)",
                                R"(<rule hand-over="illness"><if fact="glucose" is="unknown"/></rule>)");
  const CallNever found =
      broken<CallNever>(found_of(R"(at-once="30 min" late="70 min")", R"(<if fact="glucose" is="unknown"/>)", text));
  BOOST_TEST(found.how == "goes on from `measure` in a protocol that is not here");
}

BOOST_AUTO_TEST_SUITE_END()
