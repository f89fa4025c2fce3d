#include <boost/test/unit_test.hpp>

#include "sick_night.hpp"

using namespace rushlight;
using namespace rushlight::test;

// Source: Royal Children's Hospital Melbourne, "Giving the wrong insulin or the wrong dose of insulin": the clinic is
// called.

namespace {

Quantity units(int number) { return {Decimal::whole(number), Unit::insulin_unit}; }
Quantity micrograms(int number) { return {Decimal::whole(number), Unit::microgram}; }

Night& gives(Night& night, const char* action, std::optional<Quantity> amount, Outcome outcome = Outcome::given) {
  return night.happens(Done{{Deed{*night.protocol().action_named(action), outcome, amount, std::nullopt}}});
}

/// The step stays after the dose, so that another can be told in it.
Night dose_of_one_and_a_half_units() {
  Night night(sick_mara(), small_set("sick", true,
                                     R"(<rule go="round"/>
    </step>
    <step id="round")",
                                     R"(<ask fact="vomits"/><rule go="round"/>
    </step>
    <step id="round")"));
  night.answer("awake", "yes")
      .answer("already-given", "no")
      .answer("glucose", "300 mg/dL")
      .answer("ketones", "1.7 mmol/L");
  return night.answer("last-rapid-insulin", "none");
}

Outcome outcome_of_last(const Night& night) { return night.view().given.back().outcome; }

}  // namespace

BOOST_AUTO_TEST_SUITE(misdosed)

BOOST_AUTO_TEST_CASE(ten_times_the_insulin_counts_as_a_wrong_dose_and_follows_its_rule) {
  Night night = dose_of_one_and_a_half_units();
  BOOST_TEST(night.view().step == "insulin");
  gives(night, "give-insulin", units(15));
  BOOST_TEST((outcome_of_last(night) == Outcome::wrong));
  BOOST_TEST(night.view().step == "round");
}

BOOST_AUTO_TEST_CASE(insulin_as_stated_or_less_is_given) {
  for (const int number : {1, 0}) {
    Night night = dose_of_one_and_a_half_units();
    gives(night, "give-insulin", number == 0 ? std::nullopt : std::optional<Quantity>(units(number)));
    BOOST_TEST((outcome_of_last(night) == Outcome::given));
    BOOST_TEST(night.view().step == "insulin");
  }
}

BOOST_AUTO_TEST_CASE(second_insulin_within_the_no_stacking_time_is_a_wrong_dose) {
  Night night = dose_of_one_and_a_half_units();
  gives(night.at("02:12"), "give-insulin", units(1));
  gives(night.at("02:13"), "give-insulin", units(1));
  BOOST_TEST((outcome_of_last(night) == Outcome::wrong));
  BOOST_TEST(night.view().step == "round");
}

BOOST_AUTO_TEST_CASE(rest_of_a_dose_that_was_given_in_part_is_no_second_one) {
  Night night = dose_of_one_and_a_half_units();
  const Quantity half{Decimal::of_micros(500'000), Unit::insulin_unit};
  gives(night.at("02:12"), "give-insulin", units(1), Outcome::part);
  gives(night.at("02:13"), "give-insulin", half);
  BOOST_TEST((outcome_of_last(night) == Outcome::given));
}

BOOST_AUTO_TEST_CASE(more_than_the_rest_of_a_dose_that_was_given_in_part_is_a_wrong_dose) {
  Night night = dose_of_one_and_a_half_units();
  gives(night.at("02:12"), "give-insulin", units(1), Outcome::part);
  gives(night.at("02:13"), "give-insulin", units(1));
  BOOST_TEST((outcome_of_last(night) == Outcome::wrong));
}

BOOST_AUTO_TEST_CASE(insulin_although_the_last_dose_still_works_is_a_wrong_dose) {
  Night night = looked("300 mg/dL", "1.7 mmol/L", sick_mara(), "90 min");
  BOOST_TEST(night.view().withheld.size() == 1U);
  gives(night, "give-insulin", units(1));
  BOOST_TEST((outcome_of_last(night) == Outcome::wrong));
}

BOOST_AUTO_TEST_CASE(dose_the_clinic_says_by_phone_has_no_amount_to_be_more_than) {
  Night night(sick_mara(), small_set("sick", false));
  night.answer("awake", "yes")
      .answer("already-given", "no")
      .answer("glucose", "300 mg/dL")
      .answer("ketones", "1.7 mmol/L");
  night.answer("last-rapid-insulin", "none");
  gives(night, "give-insulin", units(4));
  BOOST_TEST((outcome_of_last(night) == Outcome::given));
}

BOOST_AUTO_TEST_CASE(no_insulin_told_is_no_dose_at_all) {
  Night night = dose_of_one_and_a_half_units();
  gives(night, "give-insulin", units(0));
  BOOST_TEST(night.view().given.empty());
}

BOOST_AUTO_TEST_CASE(more_glucagon_than_stated_is_a_wrong_dose) {
  Night night = looked("160 mg/dL", "0.2 mmol/L");
  night.at("04:10").answer("glucose", "60 mg/dL").answer("ketones", "0.2 mmol/L");
  BOOST_TEST(night.view().step == "mini");
  gives(night, "give-mini", micrograms(600));
  BOOST_TEST((outcome_of_last(night) == Outcome::wrong));
}

BOOST_AUTO_TEST_SUITE_END()

BOOST_AUTO_TEST_SUITE(dose_that_becomes_the_clinics)

BOOST_AUTO_TEST_CASE(call_for_the_dose_opens_when_it_is_withheld_on_the_screen) {
  Night night = dose_of_one_and_a_half_units();
  BOOST_TEST(night.view().open_calls.empty());
  night.at("02:14").answer("already-given", "unknown");
  const View view = night.view();
  BOOST_TEST(view.step == "insulin");
  BOOST_REQUIRE_EQUAL(view.open_calls.size(), 1);
  BOOST_TEST(clock(*view.open_calls.front().answer_by) == "02:24");
  BOOST_TEST(view.headline != "Insulin as the clinic says, by pen or syringe.");
}

BOOST_AUTO_TEST_CASE(call_for_the_dose_that_was_answered_does_not_open_again) {
  Night night = dose_of_one_and_a_half_units();
  night.at("02:14").answer("already-given", "unknown").call(Contact::clinic, Outcome::reached);
  night.at("02:15").answer("already-given", "unknown");
  BOOST_TEST(night.view().open_calls.empty());
}

BOOST_AUTO_TEST_CASE(dose_that_was_given_needs_no_call) {
  Night night = dose_of_one_and_a_half_units();
  gives(night, "give-insulin", units(1));
  night.at("02:14").answer("already-given", "unknown");
  BOOST_TEST(night.view().open_calls.empty());
}

BOOST_AUTO_TEST_SUITE_END()
