#include <boost/test/unit_test.hpp>

#include "cli/at_the_screen.hpp"
#include "cli/protocol_set.hpp"

// Screens of the set that travels inside the program, where a step has more than the small protocol of the tests.

namespace rushlight {
namespace {

using test::AtTheScreen;
using test::mara;

AtTheScreen at_home(Child child = mara()) {
  static const ProtocolSet set = embedded_set("reference");
  const LoadedProtocol* low = set.find("low");
  BOOST_REQUIRE(low != nullptr);
  return {std::move(child), low->checked};
}

AtTheScreen very_low() {
  AtTheScreen person = at_home();
  person.types("1").types("1").types("52").types("1");  // wakes and talks, nothing given, 52, by finger-prick
  return person;
}

AtTheScreen rescue() {
  AtTheScreen person = at_home();
  person.types("3").types("").types("1").types("1").types("1");  // will not wake; called; breathes; nothing given
  BOOST_REQUIRE(person.view().step == "rescue");
  return person;
}

BOOST_AUTO_TEST_SUITE(shipped_walk)

BOOST_AUTO_TEST_CASE(the_reading_is_taken_on_a_late_check_that_asks_for_more_and_calls) {
  AtTheScreen person = very_low();
  person.types("").at("02:31");
  BOOST_TEST(person.view().step == "nobody-checked");
  BOOST_TEST(person.shows("Type the number on the meter. No meter or strips? Type x."));
  person.types("84");
  BOOST_TEST((person.turn().what && std::holds_alternative<Answered>(*person.turn().what)));
  BOOST_TEST(person.shows("You said: 84 mg/dL"));
  person.types("").types("1");  // what is to be done, and the call, stand before the question
  BOOST_TEST(person.shows("Try to wake "), person.text());  // and not to measure again
  person.types("1");
  BOOST_TEST(person.view().step == "recovered");
}

BOOST_AUTO_TEST_CASE(the_reading_is_taken_where_a_worry_or_a_wrong_dose_calls_the_clinic_first) {
  for (const char* sign : {"9", "8"}) {
    AtTheScreen person = at_home();
    person.types("1").types("1").types("w").types(sign).types("180");
    BOOST_TEST((person.turn().what && std::holds_alternative<Answered>(*person.turn().what)), sign);
    BOOST_TEST(person.shows("You said: 180 mg/dL"), sign);
  }
}

BOOST_AUTO_TEST_CASE(no_meter_on_a_late_check_is_said_with_the_trouble_key) {
  AtTheScreen person = very_low();
  person.types("").at("02:31").types("x").types("1");
  BOOST_TEST(person.shows("There is none here"));
}

BOOST_AUTO_TEST_CASE(refused_sugar_is_never_put_on_record_as_given_by_enter) {
  AtTheScreen person = very_low();
  person.types("1").types("2");  // refuses it
  BOOST_TEST(person.view().step == "refused");
  person.types("1");  // can swallow
  BOOST_TEST(person.view().step == "offer-again");
  person.types("");
  BOOST_TEST(std::holds_alternative<SayingHowMuch>(person.dialog()));
  for (const Given& given : person.episode().given) {
    const bool mouth = person.situation().protocol[given.action].kind == ActionKind::by_mouth;
    BOOST_TEST(!(mouth && given.outcome == Outcome::given));
  }
}

BOOST_AUTO_TEST_CASE(a_second_dose_of_rescue_medicine_is_never_put_on_record_by_enter) {
  AtTheScreen person = rescue();
  BOOST_TEST(person.shows("all 3 mg was given. Only part, or none? Type 1."));
  person.types("").at("02:26").types("2").types("3");  // no crew, does not wake
  BOOST_TEST(person.view().step == "second-dose");
  person.types("");
  BOOST_TEST(std::holds_alternative<SayingHowMuch>(person.dialog()));
  int doses = 0;
  for (const Given& given : person.episode().given) {
    doses += person.situation().protocol[given.action].kind == ActionKind::glucagon ? 1 : 0;
  }
  BOOST_TEST(doses == 1);
}

BOOST_AUTO_TEST_CASE(a_crew_that_arrives_ends_the_wait_by_its_letter) {
  AtTheScreen person = rescue();
  person.types("").at("02:14");
  BOOST_TEST((phase_of(person.situation()) == Phase::wait));
  BOOST_TEST(person.shows("One of these happens meanwhile?"));
  BOOST_REQUIRE(!person.view().early.empty());
  BOOST_TEST(person.shows("e. The crew is here"));
  person.types("e");
  BOOST_TEST(person.view().step == "others-lead");
}

BOOST_AUTO_TEST_CASE(a_child_who_wakes_before_the_rescue_medicine_is_given_is_said_by_a_letter_below_the_actions) {
  AtTheScreen person = rescue();
  BOOST_TEST(person.shows("f. Wakes and talks"));
  person.types("f");
  BOOST_TEST(person.view().step == "woke-up");
  for (const Given& given : person.episode().given) {
    BOOST_TEST((person.situation().protocol[given.action].kind != ActionKind::glucagon));
  }
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace rushlight
