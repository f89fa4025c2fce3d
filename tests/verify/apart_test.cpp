#include "verify/apart.hpp"

#include <boost/test/unit_test.hpp>

#include "tests/verify/small_checks.hpp"

using namespace rushlight;
using namespace rushlight::tests;

namespace {

/// The small protocol under another name, as a second file of its set.
std::string as(const std::string& name, const std::string& text = small_protocol()) {
  return changed(text, R"(set="example" id="low")", "set=\"example\" id=\"" + name + "\"");
}

std::vector<Finding> beside(const std::vector<std::string>& texts) {
  std::vector<Protocol> protocols;
  for (const std::string& text : texts) protocols.push_back(resolved(text));
  std::vector<const Protocol*> set;
  for (const Protocol& protocol : protocols) set.push_back(&protocol);
  return apart_in_set(set);
}

}  // namespace

BOOST_AUTO_TEST_SUITE(files_of_a_set)

BOOST_AUTO_TEST_CASE(files_that_agree_are_passed_without_a_word) {
  BOOST_TEST(told(beside({small_protocol(), as("ketones"), as("illness")})) == "");
}

BOOST_AUTO_TEST_CASE(a_border_changed_in_one_file_alone_is_told_there_with_both_values) {
  const std::string edited = changed(small_protocol(), R"(mg-dl="70" mmol-l="3.9")", R"(mg-dl="65" mmol-l="3.6")");
  const std::vector<Finding> findings = beside({as("ketones"), edited, as("illness")});
  BOOST_REQUIRE(findings.size() == 1U);
  const auto& found = findings.front().kind.get<ApartInSet>();
  BOOST_TEST(found.id == "low");
  BOOST_TEST(found.here == "65 mg/dL, 3.6 mmol/L");
  BOOST_TEST(found.there == "70 mg/dL, 3.9 mmol/L");
  BOOST_TEST(found.in == "ketones");
  BOOST_TEST((findings.front().severity == Severity::warning));
}

BOOST_AUTO_TEST_CASE(numbers_of_one_name_that_mean_two_things_are_two_numbers) {
  const std::string other = changed(changed(as("ketones"), R"(mg-dl="70" mmol-l="3.9")", R"(mg-dl="65" mmol-l="3.6")"),
                                    "<en>Treat below</en>", "<en>No insulin below</en>");
  BOOST_TEST(told(beside({small_protocol(), other})) == "");
}

BOOST_AUTO_TEST_CASE(a_danger_sign_asked_the_other_way_round_in_one_file_is_told) {
  const std::string turned = changed(as("illness"), "Can {child} swallow?", "Is it hard for {child} to swallow?");
  const std::vector<Finding> findings = beside({small_protocol(), as("ketones"), turned});
  BOOST_REQUIRE(findings.size() == 1U);
  BOOST_TEST(findings.front().kind.get<ApartInSet>().id == "swallow");
}

BOOST_AUTO_TEST_CASE(a_file_of_another_set_is_told) {
  const std::string foreign = changed(small_protocol(), R"(set="example")", R"(set="harbour")");
  const std::vector<Finding> findings = beside({as("ketones"), foreign, as("illness")});
  BOOST_REQUIRE(findings.size() == 1U);
  BOOST_TEST(findings.front().kind.get<SetsMixed>().set == "harbour");
}

BOOST_AUTO_TEST_CASE(a_sign_that_one_file_lets_nobody_tell_although_it_looks_out_for_it_is_told) {
  const auto with_watch = [](const std::string& text) {
    return changed(text, R"(<rule id="having-seizure")",
                   R"(<rule id="is-confused" go="emergency" told="yes"><if fact="awake" is="confused"/></rule>
    <rule id="having-seizure")");
  };
  const std::string whole = changed(with_watch(as("ketones")), "</worse>",
                                    R"(<sign fact="awake" is="confused"><en>Confused</en></sign></worse>)");
  const std::vector<Finding> findings = beside({with_watch(small_protocol()), whole});
  BOOST_REQUIRE(findings.size() == 1U);
  const auto& found = findings.front().kind.get<SignElsewhere>();
  BOOST_TEST(found.fact == "awake");
  BOOST_TEST(found.answer == "confused");
  BOOST_TEST(found.in == "ketones");
  BOOST_TEST(told(beside({small_protocol(), whole})) == "");  // it does not look out for it
}

BOOST_AUTO_TEST_SUITE_END()
