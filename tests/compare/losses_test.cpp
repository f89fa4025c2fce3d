#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <set>

#include "shipped.hpp"
#include "verify/compare.hpp"

using namespace rushlight;
using namespace rushlight::tests;

namespace {

using Turn = Difference::Turn;

const std::string& the_low() {
  static const std::string text = shipped_text("reference", "low");
  return text;
}

constexpr const char* kVeryLow = R"(id="very-low" mg-dl="54" mmol-l="3.0")";
constexpr const char* kLow = R"(id="low" mg-dl="70" mmol-l="3.9")";

Differences beside(const std::string& was, const std::string& now, Detail detail = Detail::every_case) {
  return compare(protocol_of(was), protocol_of(now), detail);
}

/// What the answers to this step led to before and lead to now.
std::vector<const Difference*> after(const Differences& all, const std::string& step, const std::string& was) {
  std::vector<const Difference*> found;
  for (const Difference& each : all.changes) {
    const Difference::Place place{"after", step};
    if (each.kind == Difference::Kind::leads && each.was.starts_with("`" + was + "`,") &&
        std::find(each.at.begin(), each.at.end(), place) != each.at.end())
      found.push_back(&each);
  }
  return found;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(losses)

BOOST_AUTO_TEST_CASE(a_child_of_50_for_whom_nobody_gets_the_rescue_kit_ready_any_more_has_less) {
  const Differences all = beside(the_low(), with(the_low(), kVeryLow, R"(id="very-low" mg-dl="45" mmol-l="2.5")"));
  const auto found = after(all, "which-very-low", "treat-very-low");
  BOOST_REQUIRE(found.size() == 1U);
  BOOST_TEST((found.front()->turn == Turn::less));
  BOOST_TEST(found.front()->left_out == "Get the rescue medicine: {rescue-place}. Do not give it yet.");
}

BOOST_AUTO_TEST_CASE(a_child_for_whom_the_rescue_kit_is_got_ready_now_has_no_less) {
  const Differences all = beside(the_low(), with(the_low(), kVeryLow, R"(id="very-low" mg-dl="60" mmol-l="3.3")"));
  const auto found = after(all, "which-reading", "treat");
  BOOST_REQUIRE(!found.empty());
  for (const Difference* each : found) {
    BOOST_TEST((each->turn == Turn::otherwise), each->now);
    BOOST_TEST(each->left_out == "");
  }
}

BOOST_AUTO_TEST_CASE(a_call_that_is_no_more_is_less_though_the_sugar_stays) {
  // At one urgency, and with the words of the first step but for the call.
  const std::string was = with(the_low(), R"(<step id="call-and-treat" urgency="clinic-now")",
                               R"(<step id="call-and-treat" urgency="home")");
  BOOST_REQUIRE(was.find("go=\"call-and-treat\"") != std::string::npos);
  const Differences all = beside(was, with_all(was, "go=\"call-and-treat\"", "go=\"treat\""));
  bool found = false;
  for (const Difference& each : all.changes) {
    if (each.kind != Difference::Kind::leads || !each.was.starts_with("`call-and-treat`,") ||
        !each.now.starts_with("`treat`,"))
      continue;
    found = true;
    BOOST_TEST((each.turn == Turn::less));
  }
  BOOST_TEST(found);
}

BOOST_AUTO_TEST_CASE(of_what_is_less_the_most_urgent_stands_first) {
  for (const char* name : {"low", "illness", "ketones"}) {
    const std::string was = shipped_text("reference", name);
    for (const Detail detail : {Detail::every_case, Detail::every_place, Detail::worst_first}) {
      const Differences all = beside(was, with(was, kLow, R"(id="low" mg-dl="66" mmol-l="3.7")"), detail);
      std::optional<Loss> before;
      int less = 0;
      for (const Difference& each : all.changes) {
        if (each.turn != Turn::less) continue;
        if (before) BOOST_TEST((each.loss <= *before), each.was << " -> " << each.now);
        before = each.loss;
        ++less;
      }
      BOOST_TEST(less > 1);
      const auto first = std::find_if(all.changes.begin(), all.changes.end(),
                                      [](const Difference& each) { return each.turn == Turn::less; });
      if (detail == Detail::worst_first) BOOST_TEST(first->is_told);
    }
  }
}

BOOST_AUTO_TEST_CASE(told_by_place_every_place_and_every_outcome_is_there_and_each_place_once) {
  const std::string now = with(the_low(), kLow, R"(id="low" mg-dl="66" mmol-l="3.7")");
  const Differences full = beside(the_low(), now), places = beside(the_low(), now, Detail::every_place);
  BOOST_REQUIRE(places.by_place);
  BOOST_TEST(places.ways_changed == full.ways_changed);
  BOOST_TEST(places.changes.size() < full.changes.size());
  for (const Difference& each : full.changes) {
    if (each.kind != Difference::Kind::leads) continue;
    for (const Difference::Place& place : each.at) {
      const auto holds = [&](const Difference& other) {
        return other.kind == each.kind && other.turn == each.turn && other.was == each.was &&
               std::find(other.at.begin(), other.at.end(), place) != other.at.end() &&
               std::any_of(other.outcomes.begin(), other.outcomes.end(),
                           [&](const Difference::Outcome& outcome) { return outcome.words == each.now; });
      };
      BOOST_TEST(std::count_if(places.changes.begin(), places.changes.end(), holds) == 1,
                 place.occasion << " " << place.step << ": " << each.was << " -> " << each.now);
    }
  }
}

BOOST_AUTO_TEST_CASE(first_of_the_first_answers_is_the_well_child_with_that_reading) {
  const Differences all = beside(the_low(), with(the_low(), kLow, R"(id="low" mg-dl="66" mmol-l="3.7")"));
  const auto first = std::find_if(all.first_answers.begin(), all.first_answers.end(),
                                  [](const Difference& each) { return each.turn == Turn::less; });
  BOOST_REQUIRE(first != all.first_answers.end());
  BOOST_TEST(first->was.starts_with("`treat`,"), first->was);
  BOOST_TEST(first->now.starts_with("`bedtime-check`,"), first->now);
}

BOOST_AUTO_TEST_SUITE_END()
