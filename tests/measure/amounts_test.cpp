#define BOOST_TEST_DYN_LINK
#include "measure/amounts.hpp"

#include <boost/test/data/monomorphic.hpp>
#include <boost/test/data/test_case.hpp>
#include <boost/test/unit_test.hpp>
#include <ostream>
#include <vector>

#include "measure/duration_words.hpp"

using namespace rushlight;
namespace data = boost::unit_test::data;

namespace {

// What must not compile: amounts of different units in one expression, a bare number as an amount, an amount taken out
// under another unit's name. Each claim stands beside the expression that does compile, so that it cannot hold by
// accident.
template <class A, class B>
concept Compares = requires(A a, B b) {
  a < b;
};
template <class A, class B>
concept Adds = requires(A a, B b) {
  a + b;
};
template <class A, class TagOfUnit>
concept TakesOutAs = requires(A a, TagOfUnit unit) {
  a.in(unit);
};

static_assert(Compares<BodyWeight, BodyWeight>);
static_assert(!Compares<BodyWeight, Carbohydrate>);
static_assert(!Compares<InsulinDose, Carbohydrate>);
static_assert(Adds<Decimal, Decimal>);
static_assert(!Adds<BodyWeight, Carbohydrate>);
static_assert(!Adds<BodyWeight, Decimal>);
static_assert(TakesOutAs<BodyWeight, BodyWeight::Tag>);
static_assert(!TakesOutAs<BodyWeight, Carbohydrate::Tag>);
static_assert(std::is_constructible_v<BodyWeight, Decimal, BodyWeight::Tag>);
static_assert(!std::is_constructible_v<BodyWeight, Decimal>);
static_assert(!std::is_convertible_v<Carbohydrate, BodyWeight>);

struct TimeRow {
  std::string text;
  std::string read;
};
std::ostream& operator<<(std::ostream& out, const TimeRow& row) { return out << "\"" << row.text << "\""; }

std::string time_read(const std::string& text) {
  const auto duration = duration_from_words(text, DecimalMark::point_or_comma);
  if (const auto* value = std::get_if<Duration>(&duration)) return text_from_duration(*value);
  const auto& refusal = std::get<DurationRefusal>(duration);
  BOOST_TEST((refusal.mistake == DurationMistake::not_a_number) == refusal.number.has_value());
  switch (refusal.mistake) {
    case DurationMistake::not_a_number:
      return "not a number: " + refusal.text;
    case DurationMistake::missing_unit:
      return "no unit: " + refusal.text;
    case DurationMistake::unknown_unit:
      return "unknown unit: " + refusal.text;
    case DurationMistake::out_of_order:
      return "out of order: " + refusal.text;
    case DurationMistake::part_of_second:
      return "part of a second: " + refusal.text;
    case DurationMistake::too_long:
      return "too long: " + refusal.text;
  }
  return "?";
}

const std::vector<TimeRow> kTyped = {
    {"40 min", "40 min"},
    {"40min", "40 min"},
    {" 40  MIN ", "40 min"},
    {"3 h", "3 h"},
    {"3h", "3 h"},
    {"1 h 30 min", "90 min"},
    {"1h30min", "90 min"},
    {"1.5 h", "90 min"},
    {"1,5 horas", "90 min"},
    {"2 hours and 15 minutes", "135 min"},
    {"1 hora y 30 minutos", "90 min"},
    {"1 d\u00eda", "1 d"},
    {"90 s", "90 s"},
    {"0 min", "0 s"},
    {"1 d 2 h 3 min 4 s", "93784 s"},
    {"40", "no unit: 40"},
    {"1 h 30", "no unit: 30"},
    {"40 m", "unknown unit: 40 m"},
    {"40 mg", "unknown unit: 40 mg"},
    {"", "not a number: "},
    {"   ", "not a number: "},
    {"min", "not a number: min"},
    {"4O min", "unknown unit: 4O"},
    {"-5 min", "not a number: -5 min"},
    {"1:30", "unknown unit: 1:"},
    {"30 min 1 h", "out of order: 1 h"},
    {"1 h 2 h", "out of order: 2 h"},
    {"1 h and", "not a number: and"},
    {"0.5 s", "part of a second: 0.5 s"},
    {"1000000 d", "too long: 1000000 d"},
    {"040 min", "not a number: 040 min"},
};

}  // namespace

BOOST_AUTO_TEST_SUITE(amounts)

BOOST_AUTO_TEST_CASE(an_amount_keeps_its_number_and_unit) {
  const BodyWeight weight{Decimal::of_micros(23'700'000), kKilogram};
  BOOST_TEST(text_from_decimal(weight.in(kKilogram)) == "23.7");
  BOOST_TEST(text_from_quantity(weight.quantity()) == "23.7 kg");
}

BOOST_AUTO_TEST_CASE(a_quantity_of_time_becomes_whole_seconds) {
  const auto seconds = [](Decimal value, Unit unit) { return duration_from_quantity(Quantity{value, unit}); };
  BOOST_TEST(seconds(Decimal::whole(15), Unit::minute)->count() == 900);
  BOOST_TEST(seconds(Decimal::of_micros(1'500'000), Unit::minute)->count() == 90);
  BOOST_TEST(seconds(Decimal::whole(2), Unit::day)->count() == 172'800);
  BOOST_TEST(!seconds(Decimal::of_micros(10'000), Unit::minute).has_value());  // 0.6 of a second
  BOOST_TEST(!seconds(Decimal::whole(-1), Unit::minute).has_value());
  BOOST_TEST(!seconds(Decimal::whole(15), Unit::month).has_value());
  BOOST_TEST(!seconds(Decimal::whole(15), Unit::gram).has_value());
  BOOST_TEST(!seconds(Decimal::whole(1'000'000), Unit::day).has_value());
}

BOOST_AUTO_TEST_CASE(a_duration_is_written_in_its_shortest_whole_unit) {
  BOOST_TEST(text_from_duration(Duration{900}) == "15 min");
  BOOST_TEST(text_from_duration(Duration{7'200}) == "2 h");
  BOOST_TEST(text_from_duration(Duration{90}) == "90 s");
  BOOST_TEST(text_from_duration(Duration{259'200}) == "3 d");
  BOOST_TEST(text_from_duration(Duration{0}) == "0 s");
}

BOOST_DATA_TEST_CASE(a_typed_time_needs_its_unit, data::make(kTyped), row) { BOOST_TEST(time_read(row.text) == row.read); }

BOOST_AUTO_TEST_CASE(every_minute_of_two_days_is_written_and_read_back_the_same) {
  for (int minute = 0; minute <= 2 * 1'440; ++minute) {
    const Duration written = std::chrono::minutes{minute};
    const auto back = duration_from_words(text_from_duration(written));
    BOOST_REQUIRE(std::holds_alternative<Duration>(back));
    BOOST_REQUIRE((std::get<Duration>(back) == written));
  }
}

BOOST_AUTO_TEST_CASE(an_age_is_whole_months_or_years) {
  const auto age = [](Decimal value, Unit unit) { return age_from_quantity(Quantity{value, unit}); };
  BOOST_TEST(age(Decimal::whole(6), Unit::year)->months() == 72);
  BOOST_TEST(age(Decimal::whole(18), Unit::month)->completed_years() == 1);
  BOOST_TEST(!age(Decimal::of_micros(1'500'000), Unit::year).has_value());
  BOOST_TEST(!age(Decimal::whole(-1), Unit::month).has_value());
  BOOST_TEST(!age(Decimal::whole(6), Unit::day).has_value());
  BOOST_TEST(!age(Decimal::whole(1'000'000), Unit::year).has_value());
}

BOOST_AUTO_TEST_CASE(an_age_below_two_years_is_written_in_months_when_they_are_odd) {
  BOOST_TEST(text_from_age(Age::of_months(18)) == "18 mo");
  BOOST_TEST(text_from_age(Age::of_months(12)) == "1 a");
  BOOST_TEST(text_from_age(Age::of_months(0)) == "0 a");
  BOOST_TEST(text_from_age(Age::of_months(23)) == "23 mo");
  BOOST_TEST(text_from_age(Age::of_months(24)) == "2 a");
  BOOST_TEST(text_from_age(Age::of_months(67)) == "67 mo");  // an edge in odd months stays exact
  BOOST_TEST(text_from_age(Age::of_months(72)) == "6 a");
}

BOOST_AUTO_TEST_SUITE_END()
