#include <boost/test/unit_test.hpp>

#include "cli/at_the_screen.hpp"
#include "cli/protocol_set.hpp"

// Drinks of a sick day on the screen: how much, told as it goes down, and how much it has come to.

namespace rushlight {
namespace {

using test::AtTheScreen;
using test::mara;

/// The plan of a sick-day round with a glucose below the sugary border, just before Enter. 21 kg: 61 mL each hour by
/// the 4-2-1 rule (Holliday and Segar 1957), in two hours 122 mL, measured in steps of 5 mL: 120 mL.
AtTheScreen at_the_plan() {
  static const ProtocolSet set = embedded_set("reference");
  const LoadedProtocol* illness = set.find("illness");
  BOOST_REQUIRE(illness != nullptr);
  Child child = mara();
  child.strips = Strips::blood;
  AtTheScreen person{std::move(child), illness->checked};
  const std::vector<std::pair<std::string, std::string>> said = {
      {"awake", "1"},         {"already-given", "1"}, {"breathing", "1"},    {"drowsy", "1"},
      {"what-is-wrong", "2"}, {"glucose", "142"},     {"ketones", "0.3"},    {"vomits", "0"},
      {"drinking", "2"},      {"belly-pain", "1"},    {"diarrhea", "0"},     {"dehydrated", "1"},
      {"fever", "1"},         {"supplies-low", "2"},  {"meals-missed", "0"}, {"sick-since", "1"}};
  for (int typed = 0; typed < 20 && !person.view().ask.empty() && !person.view().wait; ++typed) {
    for (const auto& [fact, line] : said) {
      if (person.view().ask.front().name != fact) continue;
      person.types(line);
      break;
    }
  }
  BOOST_REQUIRE(person.view().step == "round-sugary");
  return person;
}

BOOST_AUTO_TEST_SUITE(drinks_screen)

BOOST_AUTO_TEST_CASE(whole_round_of_drinks_does_not_stand_in_front_of_the_sips) {
  const AtTheScreen person = at_the_plan();
  BOOST_TEST(person.shows("120 mL"));
  BOOST_TEST(!person.shows("1. 120 mL:"));
}

BOOST_AUTO_TEST_CASE(drinks_are_told_against_what_the_whole_wait_asks_for) {
  AtTheScreen person = at_the_plan();
  person.types("");
  BOOST_TEST(person.shows("Drunk since 02:10: 0 mL. Goal by 04:10: 120 mL."));
  person.at("02:40").types("60 mL");
  BOOST_TEST(person.shows("Drunk: 60 mL. It is counted."));
  BOOST_TEST(person.shows("Drunk since 02:10: 60 mL. Goal by 04:10: 120 mL."));
}

BOOST_AUTO_TEST_CASE(one_screen_has_one_goal) {
  AtTheScreen person = at_the_plan();
  person.types("");
  BOOST_TEST(person.shows("120 mL by 04:10"));
  BOOST_TEST(!person.shows("122 mL"));
}

BOOST_AUTO_TEST_CASE(ketones_measured_in_a_wait_are_typed_with_their_name_and_lead_on_when_raised) {
  AtTheScreen calm = at_the_plan();
  calm.types("");
  BOOST_TEST(calm.shows("Ketones measured meanwhile? Type the word ketones and the number."));
  calm.at("02:40").types("ketones 0.4");
  BOOST_TEST(calm.shows("0.4 mmol/L is kept. It is early: check again at 04:10."));
  BOOST_TEST(calm.view().step == "round-sugary");
  AtTheScreen raised = at_the_plan();
  raised.types("").at("02:40").types("Cetonas 3.1");
  BOOST_TEST(raised.view().step == "ketone-danger", raised.view().step);
  AtTheScreen no_number = at_the_plan();
  no_number.types("").at("02:40").types("ketones");
  BOOST_TEST(!no_number.turn().what.has_value());
  BOOST_TEST(no_number.view().step == "round-sugary");
}

BOOST_AUTO_TEST_CASE(bare_number_in_a_wait_with_drinks_is_asked_about_before_it_is_a_glucose) {
  AtTheScreen person = at_the_plan();
  person.types("").at("02:40").types("60");
  BOOST_TEST(!person.turn().what.has_value());
  BOOST_TEST(person.shows("60: of what?"));
  BOOST_TEST(person.shows("1. 60 mL of drink"));
  BOOST_TEST(person.shows("2. A glucose of 60"));
  AtTheScreen drink = person;
  drink.types("1");
  BOOST_TEST(drink.shows("Drunk: 60 mL. It is counted."));
  BOOST_TEST(drink.view().step == "round-sugary");
  person.types("2");
  BOOST_TEST(person.view().step != "round-sugary");  // a low is treated at once
}

BOOST_AUTO_TEST_CASE(number_that_is_neither_drink_nor_glucose_is_refused_and_nothing_is_kept) {
  AtTheScreen person = at_the_plan();
  person.types("").at("02:40").types("60").types("");
  BOOST_TEST(person.view().step == "round-sugary");
  BOOST_TEST(text_from_quantity(person.view().drinks->drunk) == "0 mL");
  person.types("1500").types("1200 mL");
  BOOST_TEST(text_from_quantity(person.view().drinks->drunk) == "0 mL");
}

BOOST_AUTO_TEST_CASE(reading_with_its_unit_or_lo_is_never_taken_for_a_drink) {
  AtTheScreen person = at_the_plan();
  person.types("").at("02:40").types("LO");
  BOOST_TEST(person.view().step != "round-sugary");
  AtTheScreen other = at_the_plan();
  other.types("").at("02:40").types("150 mg/dL");
  BOOST_TEST(other.shows("150 mg/dL is kept."));
}

BOOST_AUTO_TEST_CASE(sips_stay_on_the_screen_after_the_first_of_them) {
  AtTheScreen person = at_the_plan();
  const std::string plan = person.view().headline;
  const std::string drink = person.view().actions.front().text;
  person.types("").at("02:40").types("60 mL");
  BOOST_TEST(person.shows(plan));
  BOOST_TEST(person.shows("- " + drink));
}

BOOST_AUTO_TEST_CASE(part_of_a_drink_is_no_trouble_to_read_about) {
  AtTheScreen person = at_the_plan();
  person.types("").types("60 mL");
  BOOST_TEST(!person.shows("only part went in"));
}

BOOST_AUTO_TEST_CASE(minute_that_passes_leaves_a_wait_as_it_is_under_a_half_typed_drink) {
  AtTheScreen person = at_the_plan();
  person.types("").at("02:20");
  const Screen before = person.screen();
  person.at("02:25");
  BOOST_TEST(before.says_the_same_as(person.screen()));
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace rushlight
