#include "cli/keys.hpp"

#include <boost/test/data/monomorphic.hpp>
#include <boost/test/data/test_case.hpp>
#include <boost/test/unit_test.hpp>

namespace rushlight {
namespace {

struct Pressed {
  const char* typed;
  Language language;
  Key key;
};
std::ostream& operator<<(std::ostream& out, const Pressed& row) { return out << '"' << row.typed << '"'; }

const Pressed kPressed[] = {
    {"", Language::en, Key::enter},
    {"   ", Language::es, Key::enter},
    {"w", Language::en, Key::worse},
    {" W ", Language::en, Key::worse},
    {"worse", Language::en, Key::worse},
    {"p", Language::es, Key::worse},
    {"PEOR", Language::es, Key::worse},
    {"t", Language::en, Key::cant_tell},
    {"Can't tell", Language::en, Key::cant_tell},
    {"d", Language::es, Key::cant_tell},
    {"no sé", Language::es, Key::cant_tell},
    {"?", Language::en, Key::cant_tell},
    {"?", Language::es, Key::cant_tell},
    {"b", Language::en, Key::back},
    {"v", Language::es, Key::back},
    {"r", Language::en, Key::why},
    {"¿Por qué?", Language::es, Key::why},
    {"m", Language::es, Key::more},
    {"x", Language::en, Key::trouble},
    {"c", Language::es, Key::call},
    {"a", Language::en, Key::beep},
    {"q", Language::en, Key::stop},
};

BOOST_AUTO_TEST_SUITE(keys)

BOOST_DATA_TEST_CASE(a_letter_or_its_word_is_the_key, boost::unit_test::data::make(kPressed), row) {
  BOOST_REQUIRE(key_from_text(row.typed, row.language).has_value());
  BOOST_TEST((key_from_text(row.typed, row.language) == row.key));
}

BOOST_AUTO_TEST_CASE(everything_else_is_no_key) {
  for (const char* typed : {"1", "52", "LO", "HI", "yes", "no", "n", "y", "ww", "|", "w|worse", "k"}) {
    BOOST_TEST(!key_from_text(typed, Language::en).has_value(), typed);
  }
  for (const char* typed : {"s", "n", "si", "no", "3,9", "w", "t"}) {
    BOOST_TEST(!key_from_text(typed, Language::es).has_value(), typed);
  }
}

BOOST_AUTO_TEST_CASE(a_line_number_is_one_or_two_digits_and_never_zero) {
  BOOST_TEST((number_from_text("1") == 1));
  BOOST_TEST((number_from_text(" 12 ") == 12));
  for (const char* typed : {"", "0", "01", "123", "-1", "1.", "1a", "١"}) {
    BOOST_TEST(!number_from_text(typed).has_value(), typed);
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
