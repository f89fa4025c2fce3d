#include "cli/plain_text.hpp"

#include <boost/test/data/monomorphic.hpp>
#include <boost/test/data/test_case.hpp>
#include <boost/test/unit_test.hpp>

namespace rushlight {
namespace {

struct AsShown {
  const char* what;
  std::string text, as;
};
std::ostream& operator<<(std::ostream& out, const AsShown& row) { return out << row.what; }

const AsShown kShown[] = {
    {"an escape sequence that clears the screen", "Mia\x1b[2J", "Mia?[2J"},
    {"a bell", "Mia\a", "Mia?"},
    {"a backspace that overwrites", "70\b\b\b7", "70???7"},
    {"a delete character",
     "a\x7f"
     "b",
     "a?b"},
    {"a C1 control that begins a sequence",
     "a\xC2\x9B"
     "2J",
     "a?2J"},
    {"a line break", "one\ntwo\r\nthree", "one two  three"},
    {"a tab", "a\tb", "a b"},
    {"a Unicode line separator",
     "a\xE2\x80\xA8"
     "b",
     "a b"},
    {"an override of the reading direction",
     "12\xE2\x80\xAE"
     "34",
     "1234"},
    {"an isolate of the reading direction", "\xE2\x81\xA6x\xE2\x81\xA9", "x"},
    {"a character of no width",
     "a\xE2\x80\x8B"
     "b\xEF\xBB\xBF",
     "ab"},
    {"a language tag", "a\xF3\xA0\x81\x81", "a"},
    {"a byte that is not UTF-8",
     "a\xFF"
     "b",
     "a?b"},
    {"a cut character", "a\xC3", "a?"},
    {"an overlong slash", "\xC0\xAF", "??"},
    {"a surrogate", "\xED\xA0\x80", "???"},
    {"a NUL", std::string("a\0b", 3), "a?b"},
    {"Spanish letters and signs", "¿Ñandú? ½ ≥ «sí»", "¿Ñandú? ½ ≥ «sí»"},
    {"a picture", "🍎", "🍎"},
};

BOOST_AUTO_TEST_SUITE(plain_text)

BOOST_DATA_TEST_CASE(nothing_that_steers_a_terminal_is_left, boost::unit_test::data::make(kShown), row) {
  BOOST_TEST(cleaned(row.text) == row.as);
}

BOOST_AUTO_TEST_CASE(every_control_character_is_replaced) {
  for (int byte = 0; byte < 0x20; ++byte) {
    const std::string text = cleaned(std::string(1, static_cast<char>(byte)));
    BOOST_TEST((text == "?" || text == " "));
  }
}

BOOST_AUTO_TEST_CASE(columns_are_counted_as_a_terminal_draws_them) {
  BOOST_TEST(columns_of("Mía") == 3);
  BOOST_TEST(columns_of("Mi\xCC\x81"
                        "a") == 3);
  BOOST_TEST(columns_of("水") == 2);
  BOOST_TEST(columns_of("🍎") == 2);
  BOOST_TEST(columns_of("") == 0);
}

BOOST_AUTO_TEST_CASE(a_text_is_broken_at_blanks_and_hangs_under_its_number) {
  const std::vector<std::string> lines = wrapped("1. ", "7 g of sugar now: 75 mL of juice.", 20);
  const std::vector<std::string> expected = {"1. 7 g of sugar now:", "   75 mL of juice."};
  BOOST_TEST(lines == expected, boost::test_tools::per_element());
}

BOOST_AUTO_TEST_CASE(no_line_is_wider_than_asked_and_no_letter_is_lost) {
  const std::string text = "Llame a la línea de guardia: 555-0101-0101-0101-0101-0101 水水水水水水水 ahora mismo.";
  for (int width = 1; width < 60; ++width) {
    std::string joined;
    for (const std::string& line : wrapped("12. ", text, width)) {
      BOOST_TEST(columns_of(line) <= std::max(width, 2));
      for (const char letter : line) joined += letter == ' ' ? "" : std::string(1, letter);
    }
    std::string wanted;
    for (const char letter : text) wanted += letter == ' ' ? "" : std::string(1, letter);
    BOOST_TEST(joined.find(wanted) != std::string::npos);
  }
}

BOOST_AUTO_TEST_CASE(a_cut_never_splits_a_character) {
  BOOST_TEST(cut("niño", 3) == "niñ");
  BOOST_TEST(cut("水水", 3) == "水");
  BOOST_TEST(cut("abc", 0) == "");
}

BOOST_AUTO_TEST_CASE(capitals_and_folding_know_spanish_letters) {
  BOOST_TEST(in_capitals("Llame a la clínica, niño") == "LLAME A LA CLÍNICA, NIÑO");
  BOOST_TEST(folded_letters("¿Por QUÉ?") == "¿por que?");
  BOOST_TEST(folded_letters("NIÑO") == "niño");
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace rushlight
