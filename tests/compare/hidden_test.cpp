#include <algorithm>
#include <boost/test/unit_test.hpp>

#include "shipped.hpp"
#include "verify/compare.hpp"

using namespace rushlight;
using namespace rushlight::tests;

// A loss that stands in no step of its own: a call that was opened on the way, what another protocol would have done,
// what hangs on a count.

namespace {

using Sort = Difference::Kind;
using Turns = Difference::Turn;

std::string ketones_text() { return shipped_text("reference", "ketones"); }
std::string low_text() { return shipped_text("reference", "low"); }

Differences between_both(const std::string& was, const std::string& now) {
  return compare(protocol_of(was), protocol_of(now));
}

std::vector<Difference> found_of(const Differences& all, Sort kind, const std::string& was, const std::string& now) {
  std::vector<Difference> found;
  std::copy_if(all.changes.begin(), all.changes.end(), std::back_inserter(found), [&](const Difference& each) {
    return each.kind == kind && each.was.starts_with(was) && each.now.starts_with(now);
  });
  return found;
}

bool holds_words(const std::string& text, const std::string& words) { return text.find(words) != std::string::npos; }

}  // namespace

BOOST_AUTO_TEST_SUITE(hidden_losses)

BOOST_AUTO_TEST_CASE(an_emergency_that_becomes_a_walk_through_the_low_is_calmer) {
  const Differences all = between_both(
      ketones_text(), with(ketones_text(), R"(id="most-low-visits" value="2")", R"(id="most-low-visits" value="3")"));
  const auto found = found_of(all, Sort::leads, "`hospital-low`, Emergency", "walks `low`");
  BOOST_REQUIRE(!found.empty());
  for (const Difference& each : found) {
    BOOST_TEST((each.turn == Turns::calmer));
    BOOST_TEST(each.falls >= 1);
  }
}

BOOST_AUTO_TEST_CASE(a_low_that_is_no_more_walked_through_is_less_and_said_so) {
  const std::string visit = R"(<rule visit="low" go="after-low")";
  const Differences all = between_both(ketones_text(), with_all(ketones_text(), visit, R"(<rule go="after-low")"));
  const auto found = found_of(all, Sort::leads, "walks `low`", "`");
  int less = 0;
  for (const Difference& each : found) {
    BOOST_TEST((each.turn != Turns::otherwise), each.now);
    if (each.turn == Turns::calmer) continue;
    BOOST_TEST(each.left_out == "what `low` does");
    less += each.turn == Turns::less ? 1 : 0;
  }
  BOOST_TEST(less > 0);
}

BOOST_AUTO_TEST_CASE(a_call_that_was_opened_in_a_step_gone_through_is_told_where_the_night_comes_to) {
  const Differences all = between_both(ketones_text(), with(ketones_text(), R"(id="high-ketones" value="1.5 mmol/L")",
                                                            R"(id="high-ketones" value="1.6 mmol/L")"));
  const auto lost = [&](const Difference& each) {
    return each.turn == Turns::calmer && each.kind == Sort::call &&
           holds_words(each.was, "A call to the on-call line is open") && !holds_words(each.now, "A call to");
  };
  BOOST_TEST(std::any_of(all.changes.begin(), all.changes.end(), lost));
}

BOOST_AUTO_TEST_CASE(sugar_that_nobody_gives_any_more_is_named_though_the_new_step_is_graver) {
  const std::string rule = R"(<step id="which-reading")";
  std::string now = low_text();
  const std::size_t step = now.find(rule), at = now.find(R"(<rule go="treat">)", step);
  BOOST_REQUIRE(at != std::string::npos);
  now.replace(at, 17, R"(<rule go="no-meter-well">)");
  const auto found = found_of(between_both(low_text(), now), Sort::leads, "`treat`, Treat here", "`no-meter-well`");
  BOOST_REQUIRE(!found.empty());
  for (const Difference& each : found) {
    BOOST_TEST((each.turn == Turns::graver));
    BOOST_TEST(holds_words(each.left_out, "{fast-carbohydrate}"), each.left_out);
  }
}

BOOST_AUTO_TEST_CASE(rescue_glucagon_for_everybody_that_is_left_to_the_dispatcher_is_what_is_left_out) {
  const Differences all =
      between_both(low_text(), with(low_text(), R"(id="nasal-age" value="1 a")", R"(id="nasal-age" value="4 a")"));
  const auto found = found_of(all, Sort::leads, "`rescue`, Emergency", "`no-rescue`");
  BOOST_REQUIRE(!found.empty());
  BOOST_TEST(holds_words(found.front().left_out, "of glucagon now"), found.front().left_out);
}

BOOST_AUTO_TEST_CASE(nothing_where_a_step_waits_is_never_more_than_what_followed_before) {
  for (const char* watch : {"moderate-told", "drive-said"}) {
    const std::string start = std::string("  <rule id=\"") + watch + "\"";
    std::string now = ketones_text();
    const std::size_t at = now.find(start), end = now.find("</rule>", at) + 7;
    BOOST_REQUIRE(at != std::string::npos);
    now.erase(at, end - at);
    const std::string name = std::string(" ") + watch;
    for (std::size_t found; (found = now.find(name)) != std::string::npos;) now.erase(found, name.size());
    int staying = 0;
    for (const Difference& each : between_both(ketones_text(), now).changes) {
      if (each.kind != Sort::leads || !each.now.starts_with("nothing: the step goes on")) continue;
      BOOST_TEST((each.turn == Turns::calmer || each.turn == Turns::less), each.was);
      ++staying;
    }
    BOOST_TEST(staying > 0, watch);
  }
}

BOOST_AUTO_TEST_CASE(a_danger_told_during_a_wait_comes_before_the_rule_and_is_no_difference) {
  const Differences all =
      between_both(ketones_text(), with(ketones_text(), R"(id="sugary-below" mg-dl="180" mmol-l="10.0")",
                                        R"(id="sugary-below" mg-dl="200" mmol-l="11.1")"));
  BOOST_TEST(all.changes.size() > 1U);
  for (const Difference& each : all.changes) {
    for (const Difference::Place& place : each.at)
      BOOST_TEST(!(place.occasion == "told during the wait of" && each.was.starts_with("`urgent`")), each.now);
  }
}

BOOST_AUTO_TEST_CASE(what_hangs_on_a_count_is_said_where_it_is_counted_no_more) {
  const Differences all = between_both(low_text(), with(low_text(), R"(counts="low-treatments")", ""));
  const auto found = std::find_if(all.changes.begin(), all.changes.end(), [](const Difference& each) {
    return each.kind == Sort::count && holds_words(each.was, "counts `low-treatments` (at ");
  });
  BOOST_REQUIRE(found != all.changes.end());
  BOOST_TEST((found->turn == Turns::less));
  BOOST_TEST(holds_words(found->was, "(at 3: `emergency-awake`, Emergency)"), found->was);
}

BOOST_AUTO_TEST_CASE(a_new_answer_is_told) {
  const std::string option = R"(<option id="sensor")";
  const Differences more = between_both(
      low_text(),
      with(low_text(), option, R"(<option id="lab"><en>The hospital</en><es>El hospital</es></option>)" + option));
  const auto answer = [](const Difference& each) { return holds_words(each.now, "a new answer `lab`: The hospital"); };
  BOOST_TEST(std::any_of(more.changes.begin(), more.changes.end(), answer));
}

BOOST_AUTO_TEST_CASE(other_names_of_actions_and_marks_make_no_difference) {
  for (const char* action : {"pause-very-low", "sugar-very-low"}) {
    const std::string name = std::string("\"") + action + "\"";
    const Differences all = between_both(low_text(), with_all(low_text(), name, "\"another-name\""));
    BOOST_TEST(all.changes.empty(), action << ": " << all.changes.size());
  }
  const Differences all = between_both(ketones_text(), with_all(ketones_text(), "ketones-first", "ketones-begin"));
  BOOST_TEST(all.changes.empty(), all.changes.size());
}

BOOST_AUTO_TEST_CASE(the_urgency_of_a_step_that_nobody_sees_makes_no_difference) {
  // Nothing is asked, done or waited for in it.
  std::string was = ketones_text();
  const std::size_t steps = was.find("<step id=\"measure\"");
  BOOST_REQUIRE(steps != std::string::npos);
  was.insert(
      steps,
      R"(<step id="gone-through" urgency="home" source="practice"><headline><en>Gone through.</en><es>De paso.</es></headline><rule go="measure"/></step>
  )");
  was = with(was, R"(<rule go="measure" resets=)", R"(<rule go="gone-through" resets=)");
  const Differences all =
      between_both(was, with(was, R"(id="gone-through" urgency="home")", R"(id="gone-through" urgency="clinic")"));
  BOOST_TEST(all.changes.empty(), all.changes.size());
}

BOOST_AUTO_TEST_CASE(a_label_of_a_number_is_words) {
  const Differences all =
      between_both(low_text(), with(low_text(), "<en>Treat as low below</en>", "<en>Low is below</en>"));
  BOOST_REQUIRE(all.changes.size() == 1U);
  BOOST_TEST((all.changes.front().turn == Turns::words));
}

BOOST_AUTO_TEST_SUITE_END()
