#include "verify/shown.hpp"

#include <boost/test/unit_test.hpp>

#include "tests/verify/small_checks.hpp"

namespace rushlight::tests {

namespace {

std::string lines_of(const std::vector<Shown>& shown) {
  std::string text;
  for (const Shown& each : shown)
    text += (std::holds_alternative<NotShown>(each) ? "not shown: " : "") + sentence(each) + "\n";
  return text;
}

bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

}  // namespace

BOOST_AUTO_TEST_SUITE(shown)

BOOST_AUTO_TEST_CASE(clean_protocol_says_how_much_was_looked_at_by_counting_it) {
  const Protocol protocol = resolved(small_protocol());
  std::size_t rules = 0;
  for (const Step& step : protocol.steps) rules += step.rules.size();
  const std::string text = lines_of(check(protocol).shown);
  BOOST_TEST(holds(text, "every rule can match (" + std::to_string(rules) + " rules)"), text);
  BOOST_TEST(
      holds(text, "every step can be reached and leads on (" + std::to_string(protocol.steps.size()) + " steps)"),
      text);
  BOOST_TEST(holds(text, "the danger signs are watched in every step, and an emergency is called and stays one (" +
                             std::to_string(protocol.watch.size()) + " watch rules)"),
             text);
}

BOOST_AUTO_TEST_CASE(one_rule_more_is_one_more_that_was_looked_at) {
  const auto count = [](const std::string& text) { return lines_of(check(resolved(text)).shown); };
  const std::string more =
      changed(small_protocol(), R"(<rule go="treat"><if fact="glucose" is="unknown"/></rule>)",
              R"(<rule go="treat"><if fact="glucose" is="unknown"/><if fact="delivery" is="pump"/></rule>
      <rule go="treat"><if fact="glucose" is="unknown"/></rule>)");
  BOOST_TEST(count(small_protocol()) != count(more));
  BOOST_TEST(holds(count(more), "every rule can match ("), count(more));
}

BOOST_AUTO_TEST_CASE(numbers_without_a_published_source_are_said_to_be_such) {
  const std::string text = lines_of(check(resolved(small_protocol())).shown);
  BOOST_TEST(holds(text, "not shown: whether the numbers are right for a child: "), text);
  BOOST_TEST(holds(text, " have common practice as their source"), text);
}

BOOST_AUTO_TEST_CASE(nothing_is_shown_of_a_protocol_with_an_error) {
  const Checked broken = check(resolved(measuring(R"(<rule go="treat"><if fact="glucose" below="low"/></rule>)")));
  BOOST_TEST(!broken.protocol);
  BOOST_TEST(broken.shown.empty());
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace rushlight::tests
