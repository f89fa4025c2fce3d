#include <algorithm>
#include <boost/test/unit_test.hpp>

#include "episode/telephone.hpp"
#include "sick_night.hpp"

using namespace rushlight;
using namespace rushlight::test;

namespace {

std::vector<std::string> card_of(const Night& night) {
  const Scene scene = scene_at(night.protocol(), night.child(), night.episode(), night.episode().clock.last_wall);
  return for_the_telephone(scene, Language::en);
}

}  // namespace

BOOST_AUTO_TEST_SUITE(a_sick_day)

BOOST_AUTO_TEST_CASE(low_in_a_sick_day_is_treated_by_the_low_protocol_and_the_sick_day_goes_on) {
  Night night = looked("58 mg/dL", "0.4 mmol/L");
  BOOST_TEST(night.view().protocol == "low");
  BOOST_TEST(night.view().step == "treat");
  night.at("02:11").done("sugar", Outcome::given).at("02:26").answer("glucose", "92 mg/dL").answer("meal-soon", "no");
  BOOST_TEST(night.view().protocol == "sick");
  BOOST_TEST(night.view().step == "round");
}

BOOST_AUTO_TEST_CASE(danger_that_only_the_sick_day_knows_pre_empts_the_low_it_visits) {
  Night night = looked("58 mg/dL", "0.4 mmol/L");
  night.at("02:12").worse("drowsy", "yes");
  BOOST_TEST(night.view().step == "sick-emergency");
  BOOST_TEST(night.view().ended);
}

BOOST_AUTO_TEST_CASE(danger_that_both_know_is_handled_by_the_protocol_one_is_in) {
  Night night = looked("58 mg/dL", "0.4 mmol/L");
  night.at("02:12").worse("awake", "no");
  BOOST_TEST(night.view().protocol == "low");
  BOOST_TEST(night.view().step == "emergency");
}

BOOST_AUTO_TEST_CASE(news_that_led_to_the_low_does_not_lead_out_of_it_again) {
  const CheckedProtocol protocol = small_set("sick", true, "  </watch>\n  <steps>\n    <step id=\"look\"", R"(
    <rule id="ketones-told" go="low-first" told="yes" source="chop"><if fact="ketones" at-least="raised"/></rule>
  </watch>
  <steps>
    <step id="low-first" urgency="home" handles="ketones-told" source="chop"><headline><en>First the low.</en></headline>
      <rule go="low-now"/></step>
    <step id="low-now" urgency="home" source="chop"><headline><en>Now the low.</en></headline>
      <rule visit="low" go="after-low"/></step>
    <step id="look")");
  Night night(sick_mara(), protocol);
  night.answer("awake", "yes").answer("already-given", "no").answer("glucose", "58 mg/dL");
  night.answer("ketones", "1.2 mmol/L");
  BOOST_TEST(night.view().protocol == "low");
  BOOST_TEST(night.view().step == "treat");
}

BOOST_AUTO_TEST_CASE(emergency_at_the_end_of_a_visit_ends_everything) {
  Night night = looked("58 mg/dL", "0.4 mmol/L");
  night.at("02:12").worse("awake", "no").at("02:27").answer("awake", "no").answer("seizure", "no");
  BOOST_TEST(night.view().step == "keep-watch");
  BOOST_TEST(night.view().ended);
}

BOOST_AUTO_TEST_CASE(hand_over_for_good_does_not_come_back) {
  Night night = looked("160 mg/dL", "0.2 mmol/L");
  night.at("04:10").answer("glucose", "160 mg/dL").answer("ketones", "unknown");
  BOOST_TEST(night.view().protocol == "low");
  night.answer("glucose", "160 mg/dL");
  BOOST_TEST(night.view().ended);
  BOOST_TEST(night.view().protocol == "low");
}

BOOST_AUTO_TEST_CASE(sign_is_offered_only_where_something_watches_for_it) {
  const auto offers_drowsy = [](const Night& night) {
    const auto signs = signs_of(night.protocol(), sick_mara(), night.episode());
    return std::any_of(signs.begin(), signs.end(),
                       [&](const auto& sign) { return night.protocol()[sign.first.fact].name == "drowsy"; });
  };
  BOOST_TEST(offers_drowsy(sick_night()));
  BOOST_TEST(offers_drowsy(looked("58 mg/dL", "0.4 mmol/L")));  // in the low it visits, the sick day still watches
  Night handed_over = looked("160 mg/dL", "0.2 mmol/L");
  handed_over.at("04:10").answer("glucose", "160 mg/dL").answer("ketones", "unknown");
  BOOST_TEST(handed_over.view().protocol == "low");
  BOOST_TEST(!offers_drowsy(handed_over));
}

BOOST_AUTO_TEST_CASE(ketones_that_have_not_fallen_since_the_dose_are_a_call) {
  for (const char* ketones : {"1.7 mmol/L", "2.1 mmol/L"}) {
    Night night = looked("300 mg/dL", "1.7 mmol/L");
    night.at("02:12").done("give-insulin", Outcome::given).at("04:13").answer("glucose", "260 mg/dL").answer("ketones", ketones);
    BOOST_TEST(night.view().step == "call", ketones);
  }
}

BOOST_AUTO_TEST_CASE(ketones_that_have_fallen_go_on_with_the_rounds) {
  Night night = looked("300 mg/dL", "1.7 mmol/L");
  night.at("02:12").done("give-insulin", Outcome::given).at("04:13").answer("glucose", "260 mg/dL").answer("ketones", "1.1 mmol/L");
  BOOST_TEST(night.view().step == "round");
}

BOOST_AUTO_TEST_CASE(what_is_drunk_is_summed_against_the_hours) {
  Night night = looked("160 mg/dL", "0.2 mmol/L");
  const auto drinks = [&](const char* clock, int millilitres) {
    night.at(clock).happens(Done{{Deed{*night.protocol().action_named("drink"), Outcome::part,
                                       Quantity{Decimal::whole(millilitres), Unit::millilitre}, std::nullopt}}});
  };
  drinks("02:30", 20);
  drinks("02:50", 35);
  const View view = night.view_at("03:10");
  BOOST_REQUIRE(view.drinks.has_value());
  BOOST_TEST(text_from_quantity(view.drinks->drunk) == "55 mL");
  BOOST_TEST(text_from_quantity(view.drinks->goal) == "61 mL");  // 21 kg: 61 mL an hour
}

BOOST_AUTO_TEST_CASE(what_nobody_told_is_not_called_nothing_drunk) {
  Night night = looked("160 mg/dL", "0.2 mmol/L");
  night.at("02:12").done().at("03:10").tick();
  const std::vector<std::string> card = card_of(night);
  BOOST_TEST((std::find(card.begin(), card.end(), "Drunk: not told (goal 61 mL)") != card.end()));
}

BOOST_AUTO_TEST_CASE(all_done_never_drinks_ahead_of_the_wait) {
  Night night = looked("160 mg/dL", "0.2 mmol/L");
  night.at("02:12").done();
  BOOST_TEST(text_from_quantity(night.view().drinks->drunk) == "0 mL");
}

BOOST_AUTO_TEST_CASE(vomited_drink_is_not_drunk) {
  Night night = looked("160 mg/dL", "0.2 mmol/L");
  night.at("02:30").happens(Done{{Deed{*night.protocol().action_named("drink"), Outcome::vomited,
                                       Quantity{Decimal::whole(60), Unit::millilitre}, std::nullopt}}});
  BOOST_TEST(text_from_quantity(night.view().drinks->drunk) == "0 mL");
}

BOOST_AUTO_TEST_CASE(mini_dose_is_written_as_a_mark_on_the_syringe) {
  Night night = looked("160 mg/dL", "0.2 mmol/L");
  night.at("04:10").answer("glucose", "62 mg/dL").answer("ketones", "0.2 mmol/L");
  BOOST_TEST(night.view().step == "mini");
  BOOST_TEST(night.view().headline == "Mini-dose: to the mark 6 on the insulin syringe.");
}

BOOST_AUTO_TEST_CASE(second_night_running_with_a_low_at_this_hour_is_seen) {
  Night night = sick_night();
  History past;
  past.treatments = {Night::moment("2026-02-28T02:40:00-05:00"), Night::moment("2026-02-28T02:55:00-05:00")};
  night.happens(Remembered{past}).answer("awake", "yes").answer("already-given", "no").answer("glucose", "160 mg/dL");
  night.answer("ketones", "0.2 mmol/L").answer("last-rapid-insulin", "none");
  BOOST_TEST(night.view().step == "round");  // yesterday alone is one day
  Night again = looked("58 mg/dL", "0.4 mmol/L");
  again.happens(Remembered{past}).at("02:11").done("sugar", Outcome::given);
  const Scene scene = scene_at(again.protocol(), again.child(), again.episode(), again.episode().clock.last_wall);
  BOOST_TEST(days_low_at_this_hour(scene.episode, scene.protocol, std::chrono::minutes{60}, scene.now) == 2);
  BOOST_TEST(lows_in_a_day(scene.episode, scene.protocol, std::chrono::minutes{60}, scene.now) == 2);
}

BOOST_AUTO_TEST_CASE(three_days_high_at_one_hour_are_counted_and_a_gap_ends_the_count) {
  Night night = looked("260 mg/dL", "0.2 mmol/L");
  History past;
  const auto reading = [](const char* when) {
    return History::Reading{Night::moment(when), Glucose::reading(Decimal::whole(230), GlucoseUnit::mg_per_dl)};
  };
  past.readings = {reading("2026-02-25T02:00:00-05:00"), reading("2026-02-27T01:50:00-05:00"), reading("2026-02-28T02:30:00-05:00")};
  night.happens(Remembered{past});
  const GlucoseLimit high{Decimal::whole(200), Decimal::of_micros(11'100'000)};
  BOOST_TEST(days_high_at_this_hour(night.episode(), high, std::chrono::minutes{60}, night.episode().clock.last_wall) == 3);
}

BOOST_AUTO_TEST_CASE(call_shows_what_to_say_in_the_order_the_nurse_asks) {
  Child child = sick_mara();
  child.delivery = Delivery::automatic_pump;  // the dose is the clinic's
  const View view = looked("300 mg/dL", "1.7 mmol/L", child).view();
  const std::vector<std::string> expected = {
      "Type 1 diabetes: which dose? Extra insulin",
      "Mara, 6 years, 21 kg, automatic pump, usual daily insulin 16, rescue: injection",
      "Glucose: 300 mg/dL at 02:10",
      "Blood ketones: 1.7 mmol/L at 02:10",
      "Insulin: no rapid-acting in the last day",
      "Done so far: nothing yet",
      "Answers: Wakes and talks"};
  BOOST_TEST(view.say == expected, boost::test_tools::per_element());
}

BOOST_AUTO_TEST_CASE(on_the_second_day_the_card_says_which_day_a_time_is_of) {
  Night night = looked("300 mg/dL", "1.7 mmol/L");
  night.at("2026-03-01T13:00:00-05:00").answer("glucose", "280 mg/dL");
  const auto glucose_line = [&] { return card_of(night)[2]; };
  BOOST_TEST(glucose_line() == "Glucose: 300 mg/dL at 02:10, 280 mg/dL at 13:00");
  night.at("2026-03-02T13:05:00-05:00").answer("glucose", "250 mg/dL");
  BOOST_TEST(glucose_line() ==
             "Glucose: 300 mg/dL at 02:10 yesterday, 280 mg/dL at 13:00 yesterday, 250 mg/dL at 13:05");
}

BOOST_AUTO_TEST_CASE(on_the_third_day_the_card_says_how_many_days_ago) {
  Night night = looked("300 mg/dL", "1.7 mmol/L");
  night.at("2026-03-03T13:05:00-05:00").answer("glucose", "250 mg/dL");
  BOOST_TEST(card_of(night)[2] == "Glucose: 300 mg/dL at 02:10 (2 days ago), 250 mg/dL at 13:05");
}

BOOST_AUTO_TEST_CASE(after_the_end_no_more_is_asked_to_be_drunk) {
  Night night = looked("160 mg/dL", "0.2 mmol/L");
  night.at("03:10").worse("drowsy", "yes");
  BOOST_REQUIRE(night.view().ended);
  const std::string then = text_from_quantity(night.view().drinks->goal);
  BOOST_TEST(then == "61 mL");
  BOOST_TEST(text_from_quantity(night.view_at("05:10").drinks->goal) == then);
}

BOOST_AUTO_TEST_CASE(reading_told_after_the_end_is_kept_for_the_telephone) {
  Night night = looked("300 mg/dL", "1.7 mmol/L");
  night.happens(Abandoned{});
  night.at("02:40").answer("glucose", "120 mg/dL");
  BOOST_TEST(night.view().ended);
  BOOST_TEST(card_of(night)[2] == "Glucose: 300 mg/dL at 02:10, 120 mg/dL at 02:40");
}

BOOST_AUTO_TEST_CASE(after_insulin_alone_the_card_does_not_say_that_nothing_was_done) {
  Night night = looked("300 mg/dL", "1.7 mmol/L");
  night.at("02:12").happens(Done{{Deed{*night.protocol().action_named("give-insulin"), Outcome::given,
                                       Quantity{Decimal::whole(2), Unit::insulin_unit}, std::nullopt}}});
  const std::vector<std::string> card = card_of(night);
  BOOST_TEST((std::find(card.begin(), card.end(), "Done so far: nothing else yet") != card.end()));
}

BOOST_AUTO_TEST_SUITE_END()
