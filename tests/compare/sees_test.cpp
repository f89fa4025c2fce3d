#include <algorithm>
#include <boost/test/unit_test.hpp>

#include "shipped.hpp"
#include "verify/compare.hpp"

using namespace rushlight;
using namespace rushlight::tests;

// What a family would see, hear or be given otherwise is told, whatever part of the file it hangs on.

namespace {

using Of = Difference::Kind;
using To = Difference::Turn;

std::string the(const char* name) { return shipped_text("reference", name); }

Differences versions(const std::string& was, const std::string& now) {
  return compare(protocol_of(was), protocol_of(now));
}

/// The first difference of this kind at this place, as "in `treat`" or "foods"; the test ends without one.
Difference told(const Differences& all, Of kind, const std::string& occasion, const std::string& step = "") {
  const auto found = std::find_if(all.changes.begin(), all.changes.end(), [&](const Difference& each) {
    return each.kind == kind &&
           std::find(each.at.begin(), each.at.end(), Difference::Place{occasion, step}) != each.at.end();
  });
  BOOST_REQUIRE_MESSAGE(found != all.changes.end(), "nothing is told " << occasion << " " << step);
  return *found;
}

bool says(const std::string& text, const std::string& words) { return text.find(words) != std::string::npos; }

/// What is told of the extra insulin of a ketones file in which one passage is another.
Difference extra_insulin(const std::string& old, const std::string& now) {
  const std::string was = the("ketones");
  return told(versions(was, with(was, old, now)), Of::dose, "in", "dose-sugar-free");
}

}  // namespace

BOOST_AUTO_TEST_SUITE(what_a_family_sees)

// By hand: 20 % of 50 units a day is 10 units; 0.4 units for each of 20 kg are 8.
BOOST_AUTO_TEST_CASE(an_insulin_cap_for_each_kilogram_that_is_taken_away_is_more_insulin_for_a_small_child) {
  const std::string row = R"(<row dose="ketone-insulin" source="icmr-2022" most="largest-insulin" )"
                          R"(most-percent="largest-percent")";
  const Difference dose = extra_insulin(row + R"( most-per-kg="largest-per-kg"/>)", row + "/>");
  BOOST_TEST((dose.turn == To::graver));
  BOOST_TEST(says(dose.was,
                  "total-daily-dose 50 units a day, glucose 250 to 600 mg/dL, weight 20 kg, ketones 1.5 "
                  "mmol/L or more: 8 units"),
             dose.was);
  BOOST_TEST(says(dose.now, "weight 20 kg, ketones 1.5 mmol/L or more: 10 units"), dose.now);
}

BOOST_AUTO_TEST_CASE(a_lower_insulin_cap_is_less_for_a_child_without_a_correction_factor_too) {
  const Difference dose =
      extra_insulin(R"(id="largest-per-kg" value="0.4 [iU]/kg")", R"(id="largest-per-kg" value="0.1 [iU]/kg")");
  BOOST_TEST((dose.turn == To::less));
  BOOST_TEST(says(dose.was, "correction-known: no"), dose.was);
  BOOST_TEST(says(dose.was, "one unit brings down"), dose.was);
}

// By hand: (250 - 126) / 100 is 1.24 units, twice that 2.48; rounded down to half units 1 and 2.
BOOST_AUTO_TEST_CASE(a_correction_given_twice_over_is_told_with_amounts_and_the_factor) {
  const Difference dose = extra_insulin(R"(id="correction-times" value="1")", R"(id="correction-times" value="2")");
  BOOST_TEST((dose.turn == To::graver));
  BOOST_TEST(says(dose.was,
                  "one unit brings down 100 mg/dL, total-daily-dose 10 units a day, glucose 250 mg/dL, "
                  "weight 10 kg, ketones 1 to 1.4 mmol/L: 1 unit"),
             dose.was);
  BOOST_TEST(says(dose.now, "ketones 1 to 1.4 mmol/L: 2 units"), dose.now);
}

// By hand: 226 above 126 is one unit by a factor of 100, above 130 it is 0.96 and rounded down half a unit.
BOOST_AUTO_TEST_CASE(a_higher_target_is_less_insulin) {
  const Difference dose =
      extra_insulin(R"(id="target" mg-dl="126" mmol-l="7.0")", R"(id="target" mg-dl="130" mmol-l="7.2")");
  BOOST_TEST((dose.turn == To::less));
  BOOST_TEST(says(dose.was, "glucose 226 mg/dL, weight 10 kg, ketones 0.6 to 1.4 mmol/L: 1 unit"), dose.was);
  BOOST_TEST(says(dose.now, "ketones 0.6 to 1.4 mmol/L: 0.5 units"), dose.now);
}

// No row gives more than a fifth of the daily dose, so the bound of a fifth does nothing. That no place between those
// that were looked at differs is not proven, and is not said.
BOOST_AUTO_TEST_CASE(a_bound_that_never_binds_is_told_as_another_sum_and_no_amount_is_claimed) {
  const std::string row = R"(<row dose="ketone-insulin" source="ispad-memory" most="largest-insulin")";
  const std::string was = the("ketones");
  const Differences all = versions(was, with(was, row + R"( most-percent="largest-percent")", row));
  const auto is_dose = [](const Difference& each) { return each.kind == Of::dose; };
  BOOST_TEST(std::count_if(all.changes.begin(), all.changes.end(), is_dose) == 1);
  const Difference dose = *std::find_if(all.changes.begin(), all.changes.end(), is_dose);
  BOOST_TEST((dose.turn == To::otherwise));
  BOOST_TEST(dose.was == "`extra-insulin`: one sum");
  BOOST_TEST(dose.now == "`extra-insulin`: another sum: the amount is the same wherever it was looked at");
}

BOOST_AUTO_TEST_CASE(insulin_at_a_lower_glucose_stands_with_what_is_more) {
  const std::string was = the("ketones");
  const Differences all = versions(was, with(was, R"(id="insulin-floor" mg-dl="108" mmol-l="6.0")",
                                             R"(id="insulin-floor" mg-dl="90" mmol-l="5.0")"));
  const Difference floor = told(all, Of::dose, "insulin dose `extra-insulin`");
  BOOST_TEST((floor.turn == To::graver));
  BOOST_TEST(floor.now == "none below a glucose of 90 mg/dL = 5 mmol/L");
}

BOOST_AUTO_TEST_CASE(a_sip_that_only_a_text_names_is_told_as_an_amount) {
  const std::string was = the("illness");
  const Differences all = versions(was, with(was, R"(id="sip-every" value="10 min")", R"(id="sip-every" value="5 min")"));
  const Difference sip = told(all, Of::dose, "in", "round-sugar-free");
  BOOST_TEST((sip.turn == To::less));
  BOOST_TEST(says(sip.was, "weight 10 kg: 6 mL"), sip.was);
  BOOST_TEST(says(sip.now, "weight 10 kg: 3 mL"), sip.now);
}

BOOST_AUTO_TEST_CASE(a_number_that_a_sentence_shows_changes_that_sentence) {
  const std::string was = the("low");
  const Differences all =
      versions(was, with(was, R"(id="low" mg-dl="70" mmol-l="3.9")", R"(id="low" mg-dl="66" mmol-l="3.7")"));
  const Difference meal = told(all, Of::words, "in", "meal-now");
  BOOST_TEST((meal.turn == To::words));
  BOOST_TEST(says(meal.was, "70 mg/dL"), meal.was);
  BOOST_TEST(says(meal.now, "66 mg/dL"), meal.now);
  BOOST_TEST(all.steps_changed > 0U);
}

BOOST_AUTO_TEST_CASE(a_line_of_an_emergency_that_is_shown_to_fewer_is_less) {
  const std::string was = the("low");
  const Differences all =
      versions(was, with(was, R"(id="raised" value="0.6 mmol/L")", R"(id="raised" value="1.0 mmol/L")"));
  const Difference line = told(all, Of::action, "in", "emergency");
  BOOST_TEST((line.turn == To::less));
  BOOST_TEST(line.was == "Ketones too: tell them.");
  BOOST_TEST(line.now == "");
}

BOOST_AUTO_TEST_CASE(a_visit_that_no_longer_ends_where_it_ended_is_less) {
  const std::string was = the("low");
  const Differences all = versions(was, with(was, R"(<step id="eat-next" urgency="home" ends-visit="yes")",
                                             R"(<step id="eat-next" urgency="home")"));
  const Difference visit = told(all, Of::leads, "in", "eat-next");
  BOOST_TEST((visit.turn == To::less));
  BOOST_TEST(visit.was == "a visit ends here: the other protocol goes on");
}

BOOST_AUTO_TEST_CASE(a_hand_over_in_place_of_a_visit_loses_the_way_back) {
  const std::string was = the("ketones");
  const Differences all = versions(was, with_all(was, "visit=\"low\" go=\"after-low\"", "hand-over=\"low\""));
  const Difference way = told(all, Of::leads, "after", "measure");
  BOOST_TEST((way.turn == To::less));
  BOOST_TEST(way.now == "goes over to `low`");
}

BOOST_AUTO_TEST_CASE(a_danger_under_another_name_is_told_since_in_a_visit_names_count) {
  const std::string was = the("low");
  const Differences all = versions(was, with_all(was, "refuses-told", "refuses-still"));
  BOOST_TEST((told(all, Of::other, "watch `refuses-told`").now.empty()));
  BOOST_TEST((told(all, Of::other, "watch `refuses-still`").was.empty()));
}

BOOST_AUTO_TEST_CASE(another_goal_of_drinks_is_told_with_its_amounts) {
  const std::string was = the("illness");
  const Differences all = versions(was, with(was, R"(<fluids hourly="fluid-hour"/>)", R"(<fluids hourly="sip"/>)"));
  BOOST_TEST((told(all, Of::dose, "how much to drink in an hour").turn == To::less));
  BOOST_TEST(told(all, Of::other, "how much to drink in an hour").now == "by `sip`");
}

BOOST_AUTO_TEST_CASE(what_a_new_step_says_is_told) {
  const std::string was = the("low");
  const std::string door = R"(<step id="door" urgency="home" source="practice">
      <headline><en>Next.</en><es>Sigue.</es></headline>
      <do id="wash" kind="note"><en>Wash the hands.</en><es>Lave las manos.</es></do>
      <ask fact="awake" fresh="just-now"/>
      <rule go="eat-next" otherwise="yes"/>
    </step>
    <step id="recovered")";
  const std::string now = with_all(with(was, R"(<step id="recovered")", door), "go=\"recovered\"", "go=\"door\"");
  const Difference step = told(versions(was, now), Of::other, "a new step");
  BOOST_TEST(says(step.now, "Wash the hands."), step.now);
}

BOOST_AUTO_TEST_CASE(done_for_now_in_place_of_a_look_at_the_ketones_is_less) {
  const std::string was = the("low");
  const Differences all = versions(was, with_all(was, "go=\"high-now-ketones\"", "go=\"in-range\""));
  int less = 0;
  for (const Difference& each : all.changes) {
    if (each.kind != Of::leads || !each.was.starts_with("`high-now-ketones`,") || !each.now.starts_with("`in-range`,"))
      continue;
    ++less;
    BOOST_TEST((each.turn == To::less), each.was << " -> " << each.now);
  }
  BOOST_TEST(less > 0);
}

BOOST_AUTO_TEST_CASE(of_the_foods_only_the_one_that_changes_is_told) {
  const std::string was = the("low");
  const Differences all = versions(
      was, with(was, R"x(id="juice-content" value="10 g/(100.mL)")x", R"x(id="juice-content" value="12 g/(100.mL)")x"));
  const Difference food = told(all, Of::other, "foods");
  BOOST_TEST(says(food.now, "12 g/(100.mL)"));
  BOOST_TEST(!says(food.now, "miel"), food.now);
}

BOOST_AUTO_TEST_CASE(what_is_called_otherwise_on_the_screen_is_told) {
  const std::string was = the("low");
  const Differences timer = versions(was, with(was, "<en>Next check</en>", "<en>Look again</en>"));
  BOOST_TEST((timer.changes.size() == 1U && timer.changes.front().kind == Of::words));
  const Differences dose = versions(was, with(was, "<en>Fast sugar</en>", "<en>Quick sugar</en>"));
  BOOST_TEST((told(dose, Of::words, "what `fast-carbohydrate` is called").now == "Quick sugar"));
}

BOOST_AUTO_TEST_CASE(the_same_sentence_under_another_sign_is_neither_gone_nor_new) {
  const std::string was = the("low");
  const Differences all =
      versions(was, with(was, R"(<do id="no-chocolate" kind="note")", R"(<do id="no-chocolate" kind="watch")"));
  BOOST_REQUIRE(all.changes.size() == 1U);
  BOOST_TEST((all.changes.front().turn == To::otherwise));
  BOOST_TEST(says(all.changes.front().now, "watch: No chocolate"));
}

BOOST_AUTO_TEST_CASE(what_counts_as_a_rise_of_ketones_is_told) {
  const std::string was = the("ketones");
  const Differences gone = versions(was, with_all(was, R"( rise-over="ketone-noise")", ""));
  const Difference every = told(gone, Of::other, "mark `ketones-then`");
  BOOST_TEST((every.turn == To::otherwise));
  BOOST_TEST(says(every.now, "every rise counts"), every.now);
  const Differences later =
      versions(was, with(was, R"(<ketones id="ketone-noise" value="0.1 mmol/L")", R"(<ketones id="ketone-noise" value="0.2 mmol/L")"));
  // A child whose ketones go up goes to the hospital by it.
  const Difference rise = told(later, Of::other, "mark `ketones-then`");
  BOOST_TEST((rise.turn == To::calmer));
  BOOST_TEST(says(rise.was, "decides about `to-hospital`, Emergency"), rise.was);
}

BOOST_AUTO_TEST_CASE(a_wait_that_only_said_what_follows_silence_is_missed) {
  const std::string was = the("ketones");
  const std::string wait = R"(    <wait timer="recheck" lasts="at-once" overdue="this-check" go="nobody-checked"/>
    <ask fact="ketones" fresh="just-now"/>)";
  const Differences all = versions(was, with(was, wait, R"(    <ask fact="ketones" fresh="just-now"/>)"));
  const Difference silence = told(all, Of::wait, "in", "blood-test");
  BOOST_TEST((silence.turn == To::less));
  BOOST_TEST(says(silence.was, "asks at once, and when nobody answers, goes on after 30 min to `nobody-checked`"), silence.was);
  BOOST_TEST(says(silence.now, "nothing follows when nobody answers"), silence.now);
}

BOOST_AUTO_TEST_CASE(a_wait_under_another_name_on_the_screen_is_told) {
  const std::string was = the("low");
  const Differences all = versions(was, with(was, R"(<wait timer="recheck" lasts="recheck" after="sugar")",
                                             R"(<wait timer="resume-pump" lasts="recheck" after="sugar")"));
  const Difference timer = told(all, Of::wait, "in", "treat");
  BOOST_TEST(says(timer.was, "the wait is shown as"), timer.was);
  BOOST_TEST(timer.was != timer.now);
}

BOOST_AUTO_TEST_CASE(questions_in_another_order_are_told) {
  const std::string was = the("ketones");
  const std::string asks = R"(    <ask fact="awake"/>
    <ask fact="breathing"/>
    <ask fact="drowsy"/>
    <rule go="emergency"><if fact="awake" is="no unknown"/></rule>)";
  const Differences all = versions(was, with(was, asks, R"(    <ask fact="drowsy"/>
    <ask fact="breathing"/>
    <ask fact="awake"/>
    <rule go="emergency"><if fact="awake" is="no unknown"/></rule>)"));
  const Difference order = told(all, Of::question, "in", "nobody-checked");
  BOOST_TEST(says(order.now, "asks in the order `drowsy`, `breathing`"), order.now);
}

BOOST_AUTO_TEST_CASE(a_number_that_only_a_question_shows_is_told_in_that_question) {
  const std::string was = the("illness");
  const Differences all =
      versions(was, with(was, R"(id="fever-celsius" value="38.3")", R"(id="fever-celsius" value="38.4")"));
  const Difference fever = told(all, Of::words, "question `fever`");
  BOOST_TEST(says(fever.was, "38.3"), fever.was);
  BOOST_TEST(says(fever.now, "38.4"), fever.now);
}

BOOST_AUTO_TEST_SUITE_END()
