#include <boost/test/unit_test.hpp>

#include "episode/out_of_place.hpp"
#include "night.hpp"

using namespace rushlight;
using namespace rushlight::test;

namespace {

Night low_night() {
  Night night;
  night.at("02:10").answer("awake", "yes").answer("already-given", "no").answer("glucose", "52 mg/dL");
  return night;
}

const ShownAction& action(const View& view, const std::string& name) {
  for (const ShownAction& shown : view.actions) {
    if (shown.name == name) return shown;
  }
  throw std::runtime_error("not shown: " + name);
}


}  // namespace

BOOST_AUTO_TEST_SUITE(treating_a_low)

BOOST_AUTO_TEST_CASE(the_first_question_is_whether_the_child_wakes) {
  const View view = Night().view();
  BOOST_TEST(view.step == "measure");
  BOOST_REQUIRE(!view.ask.empty());
  BOOST_TEST(view.ask.front().name == "awake");
  BOOST_TEST(view.ask.front().text == "Try to wake Mara. What happens?");
}

BOOST_AUTO_TEST_CASE(awake_child_below_low_gets_fast_carbohydrate_and_a_recheck) {
  Night night = low_night();
  const View view = night.view();
  BOOST_TEST(view.step == "treat");
  BOOST_TEST((view.urgency == Urgency::home));
  // 0.3 g/kg at 21 kg is 6.3 g. Source: ICMR 2022, acute complications; whole grams upward.
  BOOST_REQUIRE(action(view, "sugar").dose.has_value());
  BOOST_TEST((action(view, "sugar").dose->amount == Quantity{Decimal::whole(7), Unit::gram}));
  BOOST_TEST(action(view, "sugar").dose->working == "0.3 g/kg x 21 kg = 6.3 g, up to 7 g");
  // 7 g of juice with 9.6 g in 100 mL is 72.9 mL, and a kitchen measures 75.
  BOOST_TEST(action(view, "sugar").text == "7 g of sugar now: 75 mL of apple juice (5 x tablespoons).");
  night.at("02:12").done("sugar", Outcome::given);
  BOOST_REQUIRE(night.view().wait.has_value());
  BOOST_TEST(clock(night.view().wait->until) == "02:27");
  BOOST_TEST(night.view().ask.empty());
}

BOOST_AUTO_TEST_CASE(every_statement_names_its_rule_its_number_and_its_source) {
  const View view = low_night().view();
  BOOST_REQUIRE(!view.why.empty());
  BOOST_TEST(view.why.front().rule == "measure/1");
  BOOST_TEST(view.why.front().threshold == "low");
  BOOST_TEST(view.why.front().value == "70 mg/dL");
  BOOST_TEST(view.why.front().source.find("ISPAD 2022") != std::string::npos);
}

BOOST_AUTO_TEST_CASE(exactly_at_the_border_is_not_low_in_either_unit) {
  BOOST_TEST(Night().answer("awake", "yes").answer("already-given", "no").answer("glucose", "70 mg/dL").view().step == "not-low");
  BOOST_TEST(Night().answer("awake", "yes").answer("already-given", "no").answer("glucose", "69 mg/dL").view().step == "treat");
  BOOST_TEST(Night().answer("awake", "yes").answer("already-given", "no").answer("glucose", "3.9 mmol/L").view().step == "not-low");
  BOOST_TEST(Night().answer("awake", "yes").answer("already-given", "no").answer("glucose", "3.8 mmol/L").view().step == "treat");
}

BOOST_AUTO_TEST_CASE(lo_on_the_meter_is_low_and_hi_is_not) {
  BOOST_TEST(Night().answer("awake", "yes").answer("already-given", "no").answer("glucose", "LO").view().step == "treat");
  BOOST_TEST(Night().answer("awake", "yes").answer("already-given", "no").answer("glucose", "HI").view().step == "not-low");
}

BOOST_AUTO_TEST_CASE(a_second_low_after_the_last_treatment_allowed_calls_the_clinic) {
  Night night = low_night();
  night.at("02:11").done().at("02:26").answer("glucose", "61 mg/dL");
  BOOST_TEST(night.view().step == "treat");
  BOOST_TEST(night.view().ask.empty());
  night.at("02:27").done().at("02:42").answer("glucose", "66 mg/dL");
  BOOST_TEST(night.view().step == "call-clinic");
  BOOST_TEST((night.view().urgency == Urgency::clinic_now));
  BOOST_REQUIRE(night.view().call.has_value());
  BOOST_TEST(night.view().call->number == "your clinic's on-call number");
}

BOOST_AUTO_TEST_CASE(a_recovered_child_starts_afresh_at_a_later_low) {
  Night night = low_night();
  night.at("02:11").done().at("02:26").answer("glucose", "95 mg/dL");
  BOOST_TEST(night.view().step == "after");
  BOOST_TEST(night.episode().counted.front() == 0);
}

BOOST_AUTO_TEST_CASE(a_reading_before_the_recheck_time_is_kept_but_does_not_end_the_wait) {
  Night night = low_night();
  night.at("02:11").done().at("02:20").answer("glucose", "90 mg/dL");
  BOOST_TEST(night.view().step == "treat");
  BOOST_TEST(night.view().caution.front() ==
             "That reading came before the recheck time. It is kept. Measure again at 02:26.");
  night.at("02:26").answer("glucose", "92 mg/dL");
  BOOST_TEST(night.view().step == "after");
}

BOOST_AUTO_TEST_CASE(a_reading_that_led_to_a_step_is_not_the_steps_own_check) {
  Night night = low_night();
  night.at("02:11").done("sugar", Outcome::refused).at("02:26").answer("glucose", "61 mg/dL");
  BOOST_TEST(night.view().step == "call-clinic");  // entered anew by this reading
  night.at("02:41").tick();
  BOOST_TEST(night.view().ask.front().name == "glucose");
}

BOOST_AUTO_TEST_CASE(the_wait_starts_by_itself_when_nobody_says_the_sugar_was_given) {
  Night night = low_night();
  night.at("02:29").tick();
  BOOST_TEST(night.view().waiting);
  night.at("02:30").tick();  // 02:10, five minutes' allowance, fifteen minutes' wait
  BOOST_TEST(!night.view().waiting);
  BOOST_TEST(night.view().ask.front().name == "glucose");
}

BOOST_AUTO_TEST_CASE(nobody_at_the_recheck_leads_on_by_rule_and_in_the_end_to_emergency) {
  Night night = low_night();
  night.at("02:11").done();
  BOOST_TEST(night.view_at("02:35").step == "treat");
  BOOST_TEST(night.view_at("02:36").step == "call-clinic");
  BOOST_TEST((night.view_at("02:46").urgency == Urgency::emergency));  // ten minutes without an answer on the line
  BOOST_TEST(night.view_at("03:01").step == "emergency");
}

BOOST_AUTO_TEST_CASE(sugar_told_late_counts_from_when_it_was_given) {
  Night night = low_night();
  night.at("02:14").done("sugar", Outcome::given, Night::moment("02:11"));
  BOOST_TEST(clock(night.view().wait->until) == "02:26");
}

BOOST_AUTO_TEST_CASE(each_outcome_of_the_sugar_has_its_own_way_on) {
  BOOST_TEST(low_night().at("02:11").done("sugar", Outcome::part).view().step == "treat");
  BOOST_TEST(low_night().at("02:11").done("sugar", Outcome::part).view().wait->started);
  for (const Outcome outcome : {Outcome::refused, Outcome::vomited, Outcome::none_here, Outcome::wrong}) {
    BOOST_TEST(low_night().at("02:11").done("sugar", outcome).view().step == "call-clinic");
  }
}

BOOST_AUTO_TEST_CASE(a_child_without_a_weight_gets_the_amount_that_needs_none) {
  Child child = mara();
  child.weight.reset();
  Night night(child);
  night.answer("awake", "yes").answer("already-given", "no").answer("glucose", "52 mg/dL");
  BOOST_TEST((action(night.view(), "sugar").dose->amount == Quantity{Decimal::whole(5), Unit::gram}));
  BOOST_TEST(night.view().caution.front() == "The weight is not known. The amount goes by age.");
}

BOOST_AUTO_TEST_CASE(a_dose_never_passes_its_cap) {
  Child child = mara();
  child.weight = BodyWeight{Decimal::whole(80), kKilogram};
  Night night(child);
  night.answer("awake", "yes").answer("already-given", "no").answer("glucose", "52 mg/dL");
  BOOST_TEST((action(night.view(), "sugar").dose->amount == Quantity{Decimal::whole(15), Unit::gram}));
  BOOST_TEST(action(night.view(), "sugar").dose->working == "0.3 g/kg x 80 kg = 24 g, at most 15 g");
}

BOOST_AUTO_TEST_CASE(a_weight_older_than_the_clinics_limit_is_said_beside_the_dose) {
  Child child = mara();
  child.weighed = *day_from_text("2025-11-30");  // 91 days before the night; the limit is 90
  Night night(child);
  night.answer("awake", "yes").answer("already-given", "no").answer("glucose", "52 mg/dL");
  BOOST_TEST(night.view().caution.front() == "The weight is from 2025-11-30. Weigh the child again soon.");
  child.weighed = *day_from_text("2025-12-01");
  Night later(child);
  later.answer("awake", "yes").answer("already-given", "no").answer("glucose", "52 mg/dL");
  BOOST_TEST(later.view().caution.front() != "The weight is from 2025-12-01. Weigh the child again soon.");
}

BOOST_AUTO_TEST_CASE(honey_is_never_offered_under_twelve_months) {
  // Source: INSPQ Quebec (infant botulism), clinic sets name the age.
  Child child = mara();
  child.foods.clear();
  child.foods.push_back({FoodKind::honey, {"acacia honey", ""}, Unit::gram, Decimal::whole(82), "label", std::nullopt});
  child.birth = *day_from_text("2025-03-02");  // eleven months
  Night infant(child);
  infant.answer("awake", "yes").answer("already-given", "no").answer("glucose", "52 mg/dL");
  BOOST_TEST(action(infant.view(), "sugar").text.find("honey") == std::string::npos);
  child.birth = *day_from_text("2025-03-01");  // twelve months today
  Night older(child);
  older.answer("awake", "yes").answer("already-given", "no").answer("glucose", "52 mg/dL");
  BOOST_TEST(action(older.view(), "sugar").text.find("acacia honey") != std::string::npos);
}

BOOST_AUTO_TEST_CASE(a_paused_pump_has_a_reminder_until_it_runs_again) {
  Child child = mara();
  child.delivery = Delivery::pump;
  Night night(child);
  night.answer("awake", "yes").answer("already-given", "no").answer("glucose", "52 mg/dL").at("02:11").done();
  const View treating = night.view();
  BOOST_REQUIRE(treating.timers.size() == 2);
  BOOST_TEST(treating.timers.front().name == "recheck");
  BOOST_TEST(treating.timers.back().name == "resume-pump");
  BOOST_TEST(clock(treating.timers.back().until) == "03:11");
  night.at("02:26").answer("glucose", "95 mg/dL").answer("meal-soon", "yes");
  BOOST_TEST(night.view().step == "meal");
  night.done();
  BOOST_TEST(night.view().timers.empty());
}

BOOST_AUTO_TEST_CASE(a_deed_of_another_step_is_noticed_unless_it_tells_its_own_time) {
  Night night = low_night();
  const ActionId phone = *night.protocol().action_named("phone");
  const auto told = [&](std::optional<Moment> when) {
    const Event event{Night::moment("02:12"), Done{{Deed{phone, Outcome::given, std::nullopt, when}}}};
    return deed_out_of_place(night.protocol(), night.child(), night.episode(), event);
  };
  BOOST_TEST((told(std::nullopt) == phone));
  BOOST_TEST(!told(Night::moment("02:05")).has_value());
  const Event here{Night::moment("02:12"),
                   Done{{Deed{*night.protocol().action_named("sugar"), Outcome::given, std::nullopt, std::nullopt}}}};
  BOOST_TEST(!deed_out_of_place(night.protocol(), night.child(), night.episode(), here).has_value());
}

BOOST_AUTO_TEST_CASE(a_headline_that_names_a_withheld_dose_becomes_the_reason) {
  std::string text = text_of_file(RUSHLIGHT_SOURCE_DIR "/tests/episode/small_low.xml");
  const auto change = [&](const std::string& old, const std::string& to) {
    BOOST_TEST_REQUIRE(text.find(old) != std::string::npos);
    text.replace(text.find(old), old.size(), to);
  };
  change(R"(<row fixed="small-child-carb" source="practice"/>)",
         R"(<row withheld="yes" source="practice"><en>Weigh Mara first.</en><es>Pese a Mara primero.</es></row>)");
  change("<en>Low. Give sugar now.</en><es>Glucosa baja. Dé azúcar ahora.</es>",
         "<en>Give {fast-carbohydrate} of sugar now.</en><es>Dé {fast-carbohydrate} de azúcar ahora.</es>");
  const CheckedProtocol protocol = checked_text(text, "small_low.xml");
  const auto headline = [&](const Child& child) {
    Night night(child, protocol);
    night.at("02:10").answer("awake", "yes").answer("already-given", "no").answer("glucose", "52 mg/dL");
    return night.view().headline;
  };
  Child child = mara();
  BOOST_TEST(headline(child) == "Give 7 g of sugar now.");
  child.weight = std::nullopt;
  BOOST_TEST(headline(child) == "Weigh Mara first.");
}

BOOST_AUTO_TEST_SUITE_END()
