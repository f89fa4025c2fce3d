#include <boost/test/unit_test.hpp>

#include "cli/in_the_set.hpp"

// What is read aloud on the telephone: the nurse's questions in her order, on one screen.

namespace rushlight {
namespace {

using test::AtTheScreen;
using test::in_the_set;
using test::sick_day;
using test::until;

constexpr Terminal::Size kUsual{24, 80};

/// A low: the sugar came up again.
AtTheScreen vomited_the_sugar(Language language = Language::en) {
  AtTheScreen person = in_the_set("low", test::ana(language));
  person.types("1").types("1").types("52").types("1").types("");
  person.at("02:14").types("x").types("3");
  BOOST_REQUIRE(person.view().step == "vomited");
  return person;
}

/// A sick day: will not drink, four vomits, after two checks.
AtTheScreen will_not_drink(Language language = Language::en) {
  AtTheScreen person = in_the_set("illness", test::ana(language));
  until(person, "round-sugary", sick_day());
  person.types("").at("04:12");
  until(person, "cannot-keep", sick_day({{"glucose", "151"}, {"vomits", "4"}, {"drinking", "3"}}));
  return person;
}

std::vector<std::string> said(const AtTheScreen& person) { return person.view().say; }

BOOST_AUTO_TEST_SUITE(call_card_screen)

BOOST_AUTO_TEST_CASE(card_begins_with_type_1_diabetes_and_why_somebody_calls) {
  BOOST_TEST(said(vomited_the_sugar()).front() == "Type 1 diabetes: vomits the sugar");
  BOOST_TEST(said(will_not_drink()).front() ==
             "Type 1 diabetes: vomits or does not drink. Will not drink, or brings it up");
  AtTheScreen person = in_the_set("low");
  person.types("3");
  BOOST_TEST(said(person).front() == "Type 1 diabetes. Will not wake");
  BOOST_TEST(said(vomited_the_sugar(Language::es)).front() == "Diabetes tipo 1: vomita el azúcar");
}

BOOST_AUTO_TEST_CASE(card_goes_on_in_the_order_in_which_a_nurse_asks) {
  const std::vector<std::string> lines = said(will_not_drink());
  const std::vector<std::string> expected = {
      "Type 1 diabetes: vomits or does not drink. Will not drink, or brings it up",
      "Ana, 6 years, 21 kg, injections, usual daily insulin 15, rescue: nasal",
      "Glucose: 142 mg/dL at 02:10, 151 mg/dL at 04:12",
      "Blood ketones: 0.3 mmol/L at 02:10, 0.3 mmol/L at 04:12",
      "Insulin: not asked yet",
      "Drunk: not told (goal 124 mL). Vomited in the last 4 hours: 4",
      "Done so far: nothing yet"};
  BOOST_REQUIRE(lines.size() == expected.size() + 1);
  for (std::size_t at = 0; at < expected.size(); ++at) BOOST_TEST(lines[at] == expected[at]);
  BOOST_TEST(
      lines.back() ==
      "Answers: Breathes as always. Wide awake and clear. Will not drink, or brings it up. Since 02:10: Wakes and "
      "talks. The belly does not hurt. How many loose stools in 24 hours? 0. Not dried out. No fever");
}

BOOST_AUTO_TEST_CASE(what_was_done_is_told_with_how_it_went) {
  BOOST_TEST(said(vomited_the_sugar())[4] == "Done so far: Fast sugar 7 g at 02:10, Fast sugar at 02:14, vomited");
  AtTheScreen person = in_the_set("low");
  person.types("1").types("1").types("52").types("1").types("1").types("1");
  BOOST_REQUIRE(person.view().step == "finish-rest");
  person.types("1").types("3").types("");
  BOOST_REQUIRE(person.view().call.has_value());
  BOOST_TEST(said(person)[4] == "Done so far: Fast sugar at 02:10, only part, Fast sugar in all at 02:10, vomited");
}

BOOST_AUTO_TEST_CASE(what_nobody_was_asked_is_not_what_nobody_knows) {
  BOOST_TEST(said(will_not_drink())[4] == "Insulin: not asked yet");
  AtTheScreen person = in_the_set("ketones");
  until(person, "dose-sugar-free", sick_day({{"glucose", "315"}, {"ketones", "1.6"}, {"last-rapid-insulin", "t"}}));
  BOOST_TEST(said(person)[4] == "Insulin: not known");
}

BOOST_AUTO_TEST_CASE(card_and_the_answers_below_it_fit_one_usual_screen) {
  for (const Language language : {Language::en, Language::es}) {
    AtTheScreen low = vomited_the_sugar(language);
    AtTheScreen sick = will_not_drink(language);
    for (AtTheScreen* person : {&low, &sick}) {
      person->types("c");
      BOOST_TEST(pages_of(person->screen(), kUsual, language).size() == 1, person->text());
      person->types("2").types("c");  // nobody: the emergency services stand in
      BOOST_TEST(pages_of(person->screen(), kUsual, language).size() == 1, person->text());
      BOOST_TEST(person->shows("1 Harbour Lane, second floor"));
    }
  }
}

BOOST_AUTO_TEST_CASE(clinic_that_answered_can_still_say_come) {
  AtTheScreen person = in_the_set("low");
  person.types("1").types("1").types("62").types("1").types("1").types("2").types("1").types("1").types("2");
  BOOST_REQUIRE(person.view().step == "sugar-trouble");
  person.types("c").types("1");
  BOOST_REQUIRE(person.view().open_calls.empty());
  BOOST_TEST(person.shows(", c call"));
  person.types("c");
  BOOST_TEST(person.shows("What did they say?"));
  BOOST_TEST(person.shows("2. They say: come to the hospital"));
  person.types("2");
  BOOST_TEST((person.view().urgency == Urgency::emergency));
  BOOST_TEST(person.view().step == "go-now");
}

BOOST_AUTO_TEST_CASE(without_any_call_the_key_says_so) {
  AtTheScreen person = in_the_set("low");
  person.types("c");
  BOOST_TEST(person.shows("No call is open now."));
}

BOOST_AUTO_TEST_CASE(advice_for_a_child_who_was_better_is_not_shown_in_an_emergency) {
  AtTheScreen person = will_not_drink();
  person.types("c").types("3").types("Come only if 2 more vomits");
  BOOST_TEST(person.shows("They said at 04:12: Come only if 2 more vomits"));
  person.at("04:14").types("w").types("1");
  BOOST_REQUIRE((person.view().urgency == Urgency::emergency));
  BOOST_TEST(!person.shows("Come only if 2 more vomits"));
  person.types("c").types("3").types("Leave her on the side");
  BOOST_TEST(person.shows("They said at 04:14: Leave her on the side"));
}

BOOST_AUTO_TEST_CASE(whoever_takes_over_sees_what_is_known_below_the_danger_signs) {
  AtTheScreen person = in_the_set("low");
  person.types("1").types("1").types("52").types("1").types("").at("02:14").types("m").types("4").types("Bo");
  BOOST_TEST(person.shows("Try to wake Ana."));
  BOOST_TEST(person.shows("- Glucose: 52 mg/dL at 02:10"));
  BOOST_TEST(person.shows("- Done so far: Fast sugar 7 g at 02:10"));
  person.types("1").types("1");
  BOOST_TEST(!person.shows("- Glucose: 52 mg/dL at 02:10"));
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace rushlight
