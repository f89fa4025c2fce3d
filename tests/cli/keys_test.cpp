#include "cli/keys.hpp"

#include <boost/test/data/monomorphic.hpp>
#include <boost/test/data/test_case.hpp>
#include <boost/test/unit_test.hpp>

namespace rushlight {
namespace {

struct Pressed {
  const char* typed;
  Key key;
};
std::ostream& operator<<(std::ostream& out, const Pressed& row) { return out << '"' << row.typed << '"'; }

const Pressed kPressed[] = {
    {"", Key::enter},        {"   ", Key::enter},       {"w", Key::worse},
    {" W ", Key::worse},     {"worse", Key::worse},     {"p", Key::worse},
    {"PEOR", Key::worse},    {"t", Key::cant_tell},     {"Can't tell", Key::cant_tell},
    {"d", Key::cant_tell},   {"no sé", Key::cant_tell}, {"?", Key::cant_tell},
    {"b", Key::back},        {"v", Key::back},          {"r", Key::why},
    {"¿Por qué?", Key::why}, {"m", Key::more},          {"x", Key::trouble},
    {"c", Key::call},        {"a", Key::beep},          {"q", Key::stop},
};

BOOST_AUTO_TEST_SUITE(keys)

BOOST_DATA_TEST_CASE(a_letter_or_its_word_is_the_key, boost::unit_test::data::make(kPressed), row) {
  BOOST_REQUIRE(key_from_text(row.typed).has_value());
  BOOST_TEST((key_from_text(row.typed) == row.key));
}

BOOST_AUTO_TEST_CASE(everything_else_is_no_key) {
  for (const char* typed :
       {"1", "52", "LO", "HI", "yes", "no", "n", "y", "s", "si", "3,9", "ww", "|", "w|worse", "k"}) {
    BOOST_TEST(!key_from_text(typed).has_value(), typed);
  }
}

BOOST_AUTO_TEST_CASE(no_key_letter_is_a_yes_or_a_no_too) {
  for (char letter = 'a'; letter <= 'z'; ++letter) {
    const std::string typed(1, letter);
    BOOST_TEST(!(key_from_text(typed).has_value() && yes_no_from_text(typed).has_value()), typed);
  }
}

BOOST_AUTO_TEST_CASE(a_line_number_is_one_or_two_digits_and_never_zero) {
  BOOST_TEST((number_from_text("1") == 1));
  BOOST_TEST((number_from_text(" 12 ") == 12));
  for (const char* typed : {"", "0", "01", "123", "-1", "1.", "1a", "١"}) {
    BOOST_TEST(!number_from_text(typed).has_value(), typed);
  }
}

BOOST_AUTO_TEST_CASE(letter_of_what_happens_meanwhile_is_no_key_no_answer_and_no_reading) {
  for (std::size_t place = 0; place < kMeanwhileLetters.size(); ++place) {
    const std::string letter(1, kMeanwhileLetters[place]);
    BOOST_TEST((meanwhile_place_from_text(" " + letter) == place));
    BOOST_TEST(!key_from_text(letter).has_value(), letter);
    BOOST_TEST(!yes_no_from_text(letter).has_value(), letter);
    BOOST_TEST(!number_from_text(letter).has_value(), letter);
  }
  for (const char* typed : {"", "1", "w", "ee", "hi", "HI"}) {
    BOOST_TEST(!meanwhile_place_from_text(typed).has_value(), typed);
  }
}

BOOST_AUTO_TEST_CASE(yes_and_no_are_understood_in_both_languages) {
  for (const char* typed : {"y", "Yes", "s", "si", "Sí"}) BOOST_TEST((yes_no_from_text(typed) == true), typed);
  for (const char* typed : {"n", "NO"}) BOOST_TEST((yes_no_from_text(typed) == false), typed);
  for (const char* typed : {"", "yep", "nope", "1"}) BOOST_TEST(!yes_no_from_text(typed).has_value(), typed);
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace rushlight
