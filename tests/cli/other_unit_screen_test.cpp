#include <boost/test/unit_test.hpp>

#include "cli/at_the_screen.hpp"

// A glucose of 5 is a missing digit far more often than a meter that is set to the other unit.

namespace rushlight {
namespace {

using test::AtTheScreen;

}  // namespace

BOOST_AUTO_TEST_SUITE(other_unit_screen)

BOOST_AUTO_TEST_CASE(five_for_fifty_is_asked_for_as_a_whole_number_before_the_other_unit) {
  AtTheScreen person;
  person.types("1").types("1").types("5");
  BOOST_TEST(!person.turn().what.has_value());
  BOOST_TEST(
      person.shows("5 mg/dL cannot be right. Type the whole number, as 50 or 105. Only if the meter itself says "
                   "mmol/L: type 5 mmol/L."));
}

BOOST_AUTO_TEST_CASE(a_reading_in_the_other_unit_counts_only_when_it_is_typed_twice) {
  AtTheScreen person;
  person.types("1").types("1").types("5 mmol/L");
  BOOST_TEST(!person.turn().what.has_value());
  BOOST_TEST(person.shows("5 mmol/L is 90 mg/dL."));
  BOOST_TEST(person.shows("Type 5 mmol/L again if the meter says mmol/L, or type what it shows."));
  AtTheScreen another = person;
  person.types("50");
  BOOST_TEST(person.view().step == "treat");
  BOOST_TEST(person.shows("You said: 50 mg/dL"));
  another.types("5 mmol/L");
  BOOST_TEST(another.view().ended);  // not low
  BOOST_TEST(another.shows("You said: 5 mmol/L"));
}

BOOST_AUTO_TEST_CASE(a_reading_in_the_other_unit_is_typed_twice_as_a_correction_too) {
  AtTheScreen person;
  person.types("1").types("1").types("52").types("").at("02:12").types("b").types("1").types("8.4 mmol/L");
  BOOST_TEST(person.shows("8.4 mmol/L is 151 mg/dL."));
  BOOST_TEST(!person.turn().what.has_value());
  person.types("8.4 mmol/L");
  BOOST_TEST(person.shows("Changed. Now it says: 8.4 mmol/L"));
}

BOOST_AUTO_TEST_SUITE_END()
}  // namespace rushlight
