#include "verify/explain.hpp"

#include <boost/test/unit_test.hpp>

#include "tests/verify/small_checks.hpp"
#include "verify/in_words.hpp"

namespace rushlight::tests {

namespace {

Sought only_named(const Protocol& protocol, const std::string& id) {
  const std::vector<Sought> named = sought_named(protocol, id);
  BOOST_REQUIRE_MESSAGE(named.size() == 1U, id);
  return named.front();
}

/// Each event of the example in words, one a line.
std::string told_in(const Protocol& protocol, const Explanation& explanation) {
  BOOST_REQUIRE(explanation.example);
  std::string text;
  for (const Event& event : explanation.example->events) text += in_words(protocol, event) + "\n";
  return text;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(explain)

BOOST_AUTO_TEST_CASE(step_behind_one_answer_is_explained_by_that_answer) {
  const Protocol protocol = resolved(small_protocol());
  const Explanation treat = explained(protocol, only_named(protocol, "treat"));
  BOOST_TEST(told_in(protocol, treat) == "awake: yes, glucose 69 mg/dL\n");
  BOOST_TEST(PathFinder(protocol, treat.sought).arrives(*treat.example));
  BOOST_TEST(treat.only_for.empty());
}

BOOST_AUTO_TEST_CASE(rule_that_waits_for_a_count_is_explained_with_every_round) {
  const Protocol protocol = resolved(small_protocol());
  const Explanation call = explained(protocol, only_named(protocol, "treat/1"));
  const std::string told = told_in(protocol, call);
  std::size_t rounds = 0;
  for (std::size_t at = told.find("`sugar` done"); at != std::string::npos; at = told.find("`sugar` done", at + 1))
    ++rounds;
  BOOST_TEST(rounds == 2U, told);
  BOOST_TEST(PathFinder(protocol, call.sought).arrives(*call.example));
}

BOOST_AUTO_TEST_CASE(example_that_is_cut_short_does_not_arrive) {
  const Protocol protocol = resolved(small_protocol());
  const Explanation call = explained(protocol, only_named(protocol, "treat/1"));
  Example cut = *call.example;
  cut.events.pop_back();
  BOOST_TEST(!PathFinder(protocol, call.sought).arrives(cut));
  Example other = *call.example;
  BOOST_TEST(!PathFinder(protocol, only_named(protocol, "emergency")).arrives(other));
}

BOOST_AUTO_TEST_CASE(watch_rule_is_explained_by_what_makes_it_fire) {
  const Protocol protocol = resolved(small_protocol());
  const Explanation watch = explained(protocol, only_named(protocol, "watch/will-not-wake"));
  BOOST_TEST(told_in(protocol, watch).find("awake: no") != std::string::npos);
  BOOST_TEST(watch.ways.front().words == "awake: no or can't tell");
}

BOOST_AUTO_TEST_CASE(rule_that_can_never_match_has_no_example_and_the_search_came_to_its_end) {
  const Protocol protocol = resolved(measuring(R"(
      <rule go="treat"><if fact="glucose" below="low"/></rule>
      <rule go="treat"><if fact="glucose" is="unknown"/></rule>
      <rule go="call"><if fact="glucose" below="low"/></rule>
      <rule go="well"><if fact="glucose" at-least="low"/></rule>)"));
  const Explanation dead = explained(protocol, only_named(protocol, "measure/3"));
  BOOST_TEST(!dead.example);
  BOOST_TEST(!dead.gave_up);
}

BOOST_AUTO_TEST_CASE(rule_for_some_children_says_for_whom_it_is) {
  const Protocol protocol = resolved(measuring(R"(
      <rule go="treat"><if fact="glucose" below="low"/></rule>
      <rule go="treat"><if fact="glucose" is="unknown"/></rule>
      <rule go="call"><if fact="delivery" is="pump automatic-pump"/></rule>
      <rule go="well"><if fact="glucose" at-least="low"/></rule>)"));
  const Explanation call = explained(protocol, only_named(protocol, "measure/3"));
  BOOST_REQUIRE(call.example);
  BOOST_REQUIRE(call.only_for.size() == 1U);
  BOOST_TEST(call.only_for.front().trait == "delivery");
  BOOST_TEST((call.only_for.front().values == std::vector<std::string>{"pump", "automatic-pump"}));
  const Explanation well = explained(protocol, only_named(protocol, "measure/4"));
  BOOST_REQUIRE(well.only_for.size() == 1U);
  BOOST_TEST((well.only_for.front().values == std::vector<std::string>{"injections"}));
}

BOOST_AUTO_TEST_CASE(answer_that_is_still_fresh_is_kept_and_not_asked_again) {
  // The second step takes the reading of the first, so nobody who came by a low reading can be well there.
  const std::string two_steps = changed(measuring(R"(
      <rule go="look"><if fact="glucose" below="low"/></rule>
      <rule go="treat"><if fact="glucose" is="unknown"/></rule>
      <rule go="well"><if fact="glucose" at-least="low"/></rule>)"),
                                        R"(<step id="treat")", R"(<step id="look" urgency="home" source="practice">
      <headline><en>Look.</en></headline>
      <ask fact="symptoms"/><ask fact="glucose" fresh="late"/>
      <rule go="well"><if fact="glucose" at-least="low"/></rule>
      <rule go="treat"><if fact="symptoms" is="yes no unknown"/></rule>
    </step>
    <step id="treat")");
  const Protocol protocol = resolved(two_steps);
  BOOST_TEST(!explained(protocol, only_named(protocol, "look/1")).example);
  BOOST_TEST(explained(protocol, only_named(protocol, "look/2")).example.has_value());
}

BOOST_AUTO_TEST_CASE(search_says_when_it_gives_up) {
  const Protocol protocol = resolved(small_protocol());
  const Explanation call = explained(protocol, only_named(protocol, "treat/1"));
  const Sighting bounded = PathFinder(protocol, call.sought).example_reaching(call.example->setting, 1);
  BOOST_TEST(!bounded.example);
  BOOST_TEST(bounded.gave_up);
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace rushlight::tests
