#define BOOST_TEST_DYN_LINK
#include "measure/decimal.hpp"

#include <boost/test/data/monomorphic.hpp>
#include <boost/test/data/test_case.hpp>
#include <boost/test/unit_test.hpp>
#include <limits>
#include <optional>
#include <ostream>
#include <vector>

using namespace rushlight;
namespace data = boost::unit_test::data;

namespace {

constexpr Decimal micros(std::int64_t number) { return Decimal::of_micros(number); }

constexpr Decimal kLargest = micros(std::numeric_limits<std::int64_t>::max());
constexpr Decimal kSmallest = micros(std::numeric_limits<std::int64_t>::min());

std::string name_of(NumberMistake mistake) {
  switch (mistake) {
    case NumberMistake::empty:
      return "empty";
    case NumberMistake::not_a_number:
      return "not a number";
    case NumberMistake::comma_not_point:
      return "comma not point";
    case NumberMistake::leading_zero:
      return "leading zero";
    case NumberMistake::too_many_places:
      return "too many places";
    case NumberMistake::out_of_range:
      return "out of range";
    case NumberMistake::bare_mark:
      return "bare mark";
  }
  return "?";
}

// The number as text, or the mistake's name: what a row of the table below writes down.
std::string number_read(const std::string& text, DecimalMark mark) {
  const auto number = decimal_from_text(text, mark);
  if (const auto* wrong = std::get_if<NumberMistake>(&number)) return name_of(*wrong);
  return text_from_decimal(std::get<Decimal>(number));
}

struct NumberRow {
  std::string text;
  std::string in_a_file;      // only the point is a decimal mark
  std::string at_a_keyboard;  // point or comma
};
std::ostream& operator<<(std::ostream& out, const NumberRow& row) { return out << "\"" << row.text << "\""; }

// Other readers were seen to take "7O" as 7, "3,9" as 3 or 39, "070" as 56, "1e3" as 1 and 99999999999 as 1215752191.
const std::vector<NumberRow> kNumbers = {
    {"70", "70", "70"},
    {"3.9", "3.9", "3.9"},
    {"7O", "not a number", "not a number"},
    {"70mg", "not a number", "not a number"},
    {"3,9", "comma not point", "3.9"},
    {"070", "leading zero", "leading zero"},
    {"00.5", "leading zero", "leading zero"},
    {"-070", "leading zero", "leading zero"},
    {"0x46", "not a number", "not a number"},
    {"1e3", "not a number", "not a number"},
    {"nan", "not a number", "not a number"},
    {"inf", "not a number", "not a number"},
    {"99999999999", "out of range", "out of range"},
    {"18446744073709551617", "out of range", "out of range"},
    {"", "empty", "empty"},
    {" 70", "not a number", "not a number"},
    {"70 ", "not a number", "not a number"},
    {"7 0", "not a number", "not a number"},
    {"70\n", "not a number", "not a number"},
    {"+5", "not a number", "not a number"},
    {"--5", "not a number", "not a number"},
    {"-", "not a number", "not a number"},
    {"5.", "bare mark", "bare mark"},
    {".5", "bare mark", "bare mark"},
    {".", "bare mark", "bare mark"},
    {"5,", "comma not point", "bare mark"},
    {"1.2.3", "not a number", "not a number"},
    {"1,000.5", "not a number", "not a number"},
    {"-3", "-3", "-3"},
    {"-0", "0", "0"},
    {"0", "0", "0"},
    {"0.05", "0.05", "0.05"},
    {"0,05", "comma not point", "0.05"},
    {"1.234", "1.234", "1.234"},
    {"1.2345", "too many places", "too many places"},
    {"1.2300", "too many places", "too many places"},
    {"1000000", "1000000", "1000000"},
    {"1000000.001", "out of range", "out of range"},
    {"-1000000.001", "out of range", "out of range"},
    {"9999999", "out of range", "out of range"},
    {"\xD9\xA7", "not a number", "not a number"},  // an Arabic digit
    {"\xE2\x88\x92"
     "5",
     "not a number", "not a number"},  // the typographic minus
};

}  // namespace

BOOST_AUTO_TEST_SUITE(decimal)

BOOST_DATA_TEST_CASE(a_text_is_read_as_a_whole_or_refused_with_its_reason, data::make(kNumbers), row) {
  BOOST_TEST(number_read(row.text, DecimalMark::point) == row.in_a_file);
  BOOST_TEST(number_read(row.text, DecimalMark::point_or_comma) == row.at_a_keyboard);
}

BOOST_AUTO_TEST_CASE(a_byte_after_the_end_of_a_number_is_never_ignored) {
  for (int byte = 0; byte < 256; ++byte) {
    const char c = static_cast<char>(byte);
    if (c >= '0' && c <= '9') continue;
    const std::string text = std::string("70") + c;
    BOOST_TEST_CONTEXT("byte " << byte) {
      BOOST_TEST(std::holds_alternative<NumberMistake>(decimal_from_text(text, DecimalMark::point_or_comma)));
    }
  }
}

BOOST_AUTO_TEST_CASE(every_number_of_three_places_up_to_forty_is_written_and_read_back_the_same) {
  for (std::int64_t thousandths = -40'000; thousandths <= 40'000; ++thousandths) {
    const Decimal value = micros(thousandths * 1'000);
    const auto back = decimal_from_text(text_from_decimal(value));
    BOOST_REQUIRE(std::holds_alternative<Decimal>(back));
    BOOST_REQUIRE((std::get<Decimal>(back) == value));
  }
}

BOOST_AUTO_TEST_CASE(text_has_no_trailing_zeros_and_no_exponent) {
  BOOST_TEST(text_from_decimal(micros(6'300'000)) == "6.3");
  BOOST_TEST(text_from_decimal(micros(7'000'000)) == "7");
  BOOST_TEST(text_from_decimal(micros(50'000)) == "0.05");
  BOOST_TEST(text_from_decimal(micros(1)) == "0.000001");
  BOOST_TEST(text_from_decimal(micros(-500'000)) == "-0.5");
  BOOST_TEST(text_from_decimal(kLargest) == "9223372036854.775807");
  BOOST_TEST(text_from_decimal(kSmallest) == "-9223372036854.775808");
}

BOOST_AUTO_TEST_CASE(product_of_two_read_values_is_exact) {
  BOOST_TEST(text_from_decimal(product(micros(300'000), micros(23'700'000))) == "7.11");
  BOOST_TEST(text_from_decimal(product(micros(1'001'000), micros(1'001'000))) == "1.002001");
  BOOST_TEST(text_from_decimal(product(micros(-300'000), Decimal::whole(20))) == "-6");
  BOOST_TEST((product(Decimal::whole(1'000'000), Decimal::whole(1'000'000)) == Decimal::whole(1'000'000'000'000)));
}

BOOST_AUTO_TEST_CASE(product_beyond_the_range_stops_at_its_end) {
  BOOST_TEST((product(kLargest, Decimal::whole(2)) == kLargest));
  BOOST_TEST((product(kLargest, Decimal::whole(-2)) == kSmallest));
  BOOST_TEST((product(kSmallest, kSmallest) == kLargest));
}

BOOST_AUTO_TEST_CASE(quotient_is_cut_towards_zero) {
  BOOST_TEST(text_from_decimal(quotient(Decimal::whole(2), Decimal::whole(3))) == "0.666666");
  BOOST_TEST(text_from_decimal(quotient(Decimal::whole(-2), Decimal::whole(3))) == "-0.666666");
  BOOST_TEST(text_from_decimal(quotient(Decimal::whole(15), micros(96'000))) == "156.25");
}

BOOST_AUTO_TEST_CASE(quotient_by_zero_is_zero_and_beyond_the_range_stops_at_its_end) {
  BOOST_TEST((quotient(Decimal::whole(5), Decimal{}) == Decimal{}));
  BOOST_TEST((quotient(kLargest, micros(1)) == kLargest));
  BOOST_TEST((quotient(kSmallest, micros(1)) == kSmallest));
}

BOOST_AUTO_TEST_CASE(rounding_moves_to_a_multiple_and_leaves_one_alone) {
  const Decimal one = Decimal::whole(1);
  const Decimal half = micros(500'000);
  BOOST_TEST(text_from_decimal(rounded(micros(6'100'000), RoundDirection::up, one)) == "7");
  BOOST_TEST(text_from_decimal(rounded(micros(6'900'000), RoundDirection::down, one)) == "6");
  BOOST_TEST(text_from_decimal(rounded(micros(6'500'000), RoundDirection::nearest, one)) == "7");
  BOOST_TEST(text_from_decimal(rounded(micros(6'499'999), RoundDirection::nearest, one)) == "6");
  BOOST_TEST(text_from_decimal(rounded(micros(1'740'000), RoundDirection::down, half)) == "1.5");
  BOOST_TEST(text_from_decimal(rounded(Decimal::whole(7), RoundDirection::up, one)) == "7");
  BOOST_TEST(text_from_decimal(rounded(micros(-6'500'000), RoundDirection::nearest, one)) == "-6");
  BOOST_TEST(text_from_decimal(rounded(micros(-6'100'000), RoundDirection::down, one)) == "-7");
  BOOST_TEST(text_from_decimal(rounded(micros(-6'900'000), RoundDirection::up, one)) == "-6");
}

BOOST_AUTO_TEST_CASE(rounding_to_no_step_changes_nothing_and_at_the_end_of_the_range_stops_there) {
  BOOST_TEST(text_from_decimal(rounded(micros(6'123'456), RoundDirection::up, Decimal{})) == "6.123456");
  BOOST_TEST(text_from_decimal(rounded(micros(6'123'456), RoundDirection::up, Decimal::whole(-1))) == "6.123456");
  BOOST_TEST((rounded(kLargest, RoundDirection::up, Decimal::whole(1)) == kLargest));
  BOOST_TEST((rounded(kSmallest, RoundDirection::down, Decimal::whole(1)) == kSmallest));
}

BOOST_AUTO_TEST_SUITE_END()
