#include <boost/test/unit_test.hpp>

#include "cli/in_the_set.hpp"

// What may happen during a wait has a letter, a step has a number, and a reading is a number: none is taken for
// another.

namespace rushlight {
namespace {

using test::AtTheScreen;
using test::in_the_set;

/// A low, the sugar given, and then the child does not breathe as usual; the dispatcher has answered.
AtTheScreen not_breathing() {
  AtTheScreen person = in_the_set("low");
  person.types("1").types("1").types("52").types("1").types("").at("02:12").types("w").types("4");
  BOOST_REQUIRE(person.view().step == "dispatcher-first");
  return person;
}

BOOST_AUTO_TEST_SUITE(meanwhile_screen)

BOOST_AUTO_TEST_CASE(what_happens_meanwhile_is_a_statement_with_a_letter_and_no_step_to_mark) {
  AtTheScreen person = not_breathing();
  BOOST_TEST(person.shows("e. The crew is here"));
  BOOST_TEST(person.shows("f. Breathes as usual"));
  BOOST_TEST(!person.shows("4. "));
  BOOST_TEST(!person.shows("? Yes"));
}

BOOST_AUTO_TEST_CASE(number_behind_the_steps_says_nothing_about_breathing) {
  AtTheScreen person = not_breathing();
  person.types("4");
  BOOST_TEST(!person.turn().what.has_value());
  BOOST_TEST(person.shows("The answers here are 1 to 3. Nothing is lost."));
  BOOST_TEST(person.view().step == "dispatcher-first");
  person.types("f");
  BOOST_TEST(person.view().step == "breathes-again");
}

BOOST_AUTO_TEST_CASE(dispatcher_goes_on_leading_after_somebody_has_answered) {
  AtTheScreen person = not_breathing();
  person.types("").types("1");
  BOOST_TEST(person.shows("Not breathing as usual. The dispatcher leads."));
  BOOST_TEST(person.shows("- Do what they say."));
  BOOST_TEST(!person.shows("Stay. Watch Ana until"));
  BOOST_TEST(person.shows("e. The crew is here"));
}

BOOST_AUTO_TEST_CASE(nobody_is_told_to_call_the_line_that_is_open) {
  AtTheScreen person = not_breathing();
  person.types("").types("1").at("02:14").types("f").types("3");
  BOOST_REQUIRE(person.view().step == "rescue");
  BOOST_TEST(person.shows("Rescue glucagon: 3 mg, one dose only."));
  BOOST_TEST(!person.shows("Nobody answered by"));
  BOOST_TEST(!person.shows("Call 555 0999 now."));
}

BOOST_AUTO_TEST_CASE(headline_no_longer_says_call_once_they_have_answered) {
  AtTheScreen person = in_the_set("low");
  person.types("3").types("").types("1");
  BOOST_REQUIRE(person.view().step == "emergency");
  BOOST_TEST(person.shows("They answered. Stay on the phone."));
  BOOST_TEST(!person.shows("Emergency. On the side. Call 555 0999."));
}

BOOST_AUTO_TEST_CASE(crew_that_is_there_takes_the_call_off_the_screen) {
  AtTheScreen person = not_breathing();
  person.types("e");
  BOOST_TEST(person.view().step == "others-lead");
  BOOST_TEST(!person.shows("Call 555 0999 now."));
}

BOOST_AUTO_TEST_CASE(letters_count_in_capitals_and_only_as_far_as_the_list_goes) {
  AtTheScreen person = not_breathing();
  person.types("h");
  BOOST_TEST(!person.turn().what.has_value());
  BOOST_TEST(person.shows("Nothing is lost."));
  person.types("F");
  BOOST_TEST(person.view().step == "breathes-again");
}

BOOST_AUTO_TEST_CASE(clinic_that_says_come_is_said_in_its_own_words) {
  AtTheScreen person = in_the_set("illness");
  until(person, "cannot-keep", test::sick_day({{"drinking", "3"}}));
  BOOST_TEST(person.shows("e. The clinic says: come to the hospital"));
  person.types("e");
  BOOST_TEST(person.view().step == "go-now");
}

BOOST_AUTO_TEST_CASE(ketones_of_1_typed_as_1_are_a_reading) {
  AtTheScreen person = in_the_set("ketones");
  until(person, "blood-test", test::sick_day({{"glucose", "180"}}));
  person.types("1");
  BOOST_REQUIRE(person.turn().what.has_value());
  BOOST_TEST(person.shows("You said: 1 mmol/L"));
  BOOST_TEST(!person.shows("What happened?"));
}

BOOST_AUTO_TEST_CASE(strip_that_is_not_there_is_said_with_the_trouble_key) {
  AtTheScreen person = in_the_set("ketones");
  until(person, "blood-test", test::sick_day({{"glucose", "180"}}));
  BOOST_TEST(person.shows("No meter or strips? Type x."));
  person.types("x").types("1");
  BOOST_TEST(person.view().step == "urine-test");
}

BOOST_AUTO_TEST_CASE(rest_of_the_sugar_is_not_read_as_another_whole_dose) {
  AtTheScreen person = in_the_set("low");
  person.types("1").types("1").types("52").types("1").types("1").types("1");
  BOOST_REQUIRE(person.view().step == "finish-rest");
  BOOST_TEST(person.shows("1. Give only what is missing. Both parts make 7 g of sugar"));
  BOOST_TEST(!person.shows("1. 7 g: "));
  person.types("").types("1").types("m").types("3");
  BOOST_TEST(person.shows("02:10 Fast sugar (only part)"));
  BOOST_TEST(person.shows("02:10 Fast sugar in all: 7 g (done)"));
}

BOOST_AUTO_TEST_CASE(one_sentence_says_that_the_time_is_up_and_the_old_plan_is_gone) {
  AtTheScreen plan = in_the_set("illness");
  until(plan, "round-sugary", test::sick_day());
  const std::string headline = plan.view().headline;
  plan.types("").at("04:12");
  BOOST_TEST(plan.shows("Time is up. Check now."));
  BOOST_TEST(!plan.shows(headline));
  AtTheScreen worry = in_the_set("illness");
  until(worry, "round-sugary", test::sick_day());
  worry.types("w").types("12").types("c").types("1").types("").at("02:26");
  BOOST_REQUIRE(worry.view().step == "worry");
  const std::string text = worry.text(1000);
  BOOST_TEST(text.find("Time is up.") != std::string::npos);
  BOOST_TEST(text.find("Time is up.") == text.rfind("Time is up."));
}

BOOST_AUTO_TEST_CASE(measure_now_is_gone_once_the_readings_are_told) {
  AtTheScreen person = in_the_set("illness");
  until(person, "blood-test", test::sick_day({{"glucose", "180"}}));
  person.types("0.3");
  BOOST_TEST(person.shows("Measured. Now look at Ana."));
  BOOST_TEST(!person.shows("Measure the blood ketones now."));
  BOOST_TEST(person.shows("drink"));
}

BOOST_AUTO_TEST_CASE(advice_of_which_nothing_is_to_be_said_stands_beside_its_question) {
  AtTheScreen person = in_the_set("low");
  person.types("1").types("1").types("62").types("1").types("1").types("2");
  BOOST_REQUIRE(person.view().step == "refused");
  BOOST_TEST(person.shows("- Sit beside the child. Speak calmly."));
  BOOST_TEST(person.shows("Can Ana swallow?"));
  person.types("1");
  BOOST_TEST(person.view().step == "offer-again");
}

BOOST_AUTO_TEST_CASE(list_of_steps_names_the_numbers_that_count) {
  AtTheScreen person = in_the_set("low");
  person.types("1").types("1").types("62").types("1").types("1").types("2").types("1");
  person.types("1").types("2");
  BOOST_REQUIRE(person.view().step == "sugar-trouble");
  person.types("x").types("3");
  BOOST_TEST(person.shows("The answers here are 1, 2. Nothing is lost."));
}

BOOST_AUTO_TEST_CASE(wrong_key_on_a_page_to_read_is_not_understood_and_more_is) {
  AtTheScreen person = in_the_set("low");
  person.types("1").types("r").types("zz");
  BOOST_TEST(person.shows("I did not understand \"zz\"."));
  person.types("m");
  BOOST_TEST(std::holds_alternative<ChoosingMore>(person.dialog()));
}

BOOST_AUTO_TEST_CASE(cant_tell_is_offered_only_where_there_is_a_question) {
  AtTheScreen person = in_the_set("low");
  BOOST_TEST(person.shows("t can't tell"));
  person.types("1").types("1");
  BOOST_TEST(person.shows("t can't tell"));  // the reading
  person.types("62").types("1");
  BOOST_REQUIRE(person.view().step == "treat");
  BOOST_TEST(!person.shows("t can't tell"));
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace rushlight
