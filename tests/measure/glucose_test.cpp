#define BOOST_TEST_DYN_LINK
#include "measure/glucose.hpp"

#include <boost/test/data/monomorphic.hpp>
#include <boost/test/data/test_case.hpp>
#include <boost/test/unit_test.hpp>
#include <ostream>
#include <vector>

#include "measure/ketones.hpp"

using namespace rushlight;
namespace data = boost::unit_test::data;

namespace {

constexpr GlucoseUnit kMass = GlucoseUnit::mg_per_dl;
constexpr GlucoseUnit kMoles = GlucoseUnit::mmol_per_l;

std::string reading_read(const std::string& text, GlucoseUnit usual, DecimalMark mark) {
  const auto glucose = glucose_from_text(text, usual, mark);
  if (const auto* reading = std::get_if<Glucose>(&glucose)) {
    return text_from_glucose(*reading) + (reading->mark() ? reading->unit() == kMass ? " in mg/dL" : " in mmol/L" : "");
  }
  const auto& refusal = std::get<GlucoseRefusal>(glucose);
  BOOST_TEST((refusal.mistake == GlucoseMistake::not_a_number) == refusal.number.has_value());
  const std::string taken_in = refusal.unit == kMass ? ", taken in mg/dL" : ", taken in mmol/L";
  switch (refusal.mistake) {
    case GlucoseMistake::not_a_number:
      return *refusal.number == NumberMistake::empty ? "empty" : "not a number: " + refusal.text;
    case GlucoseMistake::unknown_unit:
      return "unknown unit: " + refusal.text;
    case GlucoseMistake::other_unit_likely:
      return "ask about " + refusal.text + taken_in;
    case GlucoseMistake::beyond_meter:
      return "no meter shows " + refusal.text + taken_in;
  }
  return "?";
}

struct ReadingRow {
  std::string text;
  GlucoseUnit usual;
  std::string read;
};
std::ostream& operator<<(std::ostream& out, const ReadingRow& row) {
  return out << "\"" << row.text << "\" in " << (row.usual == kMass ? "mg/dL" : "mmol/L");
}

const std::vector<ReadingRow> kReadings = {
    {"52", kMass, "52 mg/dL"},
    {"52mg/dL", kMass, "52 mg/dL"},
    {"52 mg/dl", kMass, "52 mg/dL"},
    {"  52 mg/dL ", kMoles, "52 mg/dL"},
    {"3.9", kMoles, "3.9 mmol/L"},
    {"3.9 mmol/L", kMass, "3.9 mmol/L"},
    {"LO", kMass, "LO in mg/dL"},
    {"hi", kMoles, "HI in mmol/L"},
    {" Lo ", kMoles, "LO in mmol/L"},
    {"4.2", kMass, "ask about 4.2, taken in mg/dL"},
    {"4.2 mg/dL", kMoles, "ask about 4.2 mg/dL, taken in mg/dL"},
    {"110", kMoles, "ask about 110, taken in mmol/L"},
    {"52 mmol/L", kMass, "ask about 52 mmol/L, taken in mmol/L"},
    {"20", kMass, "20 mg/dL"},
    {"19.9", kMass, "ask about 19.9, taken in mg/dL"},
    {"600", kMass, "600 mg/dL"},
    {"601", kMass, "no meter shows 601, taken in mg/dL"},
    {"700", kMoles, "no meter shows 700, taken in mmol/L"},
    {"33.3", kMoles, "33.3 mmol/L"},
    {"33.4", kMoles, "ask about 33.4, taken in mmol/L"},
    {"1.1", kMoles, "1.1 mmol/L"},
    {"1.0", kMoles, "no meter shows 1.0, taken in mmol/L"},
    {"0", kMass, "no meter shows 0, taken in mg/dL"},
    {"-52", kMass, "no meter shows -52, taken in mg/dL"},
    {"", kMass, "empty"},
    {"   ", kMass, "empty"},
    {"5O", kMass, "unknown unit: 5O"},
    {"5O mg/dL", kMass, "not a number: 5O mg/dL"},
    {"5 2", kMass, "not a number: 5 2"},
    {"052", kMass, "not a number: 052"},
    {"52 mg", kMass, "unknown unit: 52 mg"},
    {"high", kMass, "not a number: high"},
    {"mg/dL", kMass, "not a number: mg/dL"},
    {"LO mg/dL", kMass, "not a number: LO mg/dL"},
};

Glucose in_mg_per_dl(std::int64_t number) { return Glucose::reading(Decimal::whole(number), kMass); }
Glucose in_mmol_per_l(std::int64_t thousandths) {
  return Glucose::reading(Decimal::of_micros(thousandths * 1'000), kMoles);
}
const GlucoseLimit kLow{Decimal::whole(70), Decimal::of_micros(3'900'000)};

struct KetoneRow {
  std::string text;
  std::string read;
};
std::ostream& operator<<(std::ostream& out, const KetoneRow& row) { return out << "\"" << row.text << "\""; }

std::string read_ketones(const std::string& text) {
  const auto ketones = ketones_from_text(text, DecimalMark::point_or_comma);
  if (const auto* reading = std::get_if<KetoneReading>(&ketones)) return text_from_ketones(*reading);
  const auto& refusal = std::get<KetoneRefusal>(ketones);
  BOOST_TEST((refusal.mistake == KetoneMistake::not_a_number) == refusal.number.has_value());
  switch (refusal.mistake) {
    case KetoneMistake::not_a_number:
      return "not a number: " + refusal.text;
    case KetoneMistake::unknown_unit:
      return "unknown unit: " + refusal.text;
    case KetoneMistake::other_unit_likely:
      return "ask about " + refusal.text;
    case KetoneMistake::beyond_meter:
      return "no meter shows " + refusal.text;
  }
  return "?";
}

const std::vector<KetoneRow> kKetoneRows = {
    {"1.2", "1.2 mmol/L"},
    {"1,2", "1.2 mmol/L"},
    {"0", "0 mmol/L"},
    {"0.6 mmol/l", "0.6 mmol/L"},
    {"hi", "HI"},
    {"8", "8 mmol/L"},
    {"8.1", "no meter shows 8.1"},
    {"10", "no meter shows 10"},
    {"10.8", "ask about 10.8"},
    {"31", "ask about 31"},
    {"31 mg/dL", "ask about 31 mg/dL"},
    {"6 mg/dL", "ask about 6 mg/dL"},
    {"-1", "no meter shows -1"},
    {"1.2 mg", "unknown unit: 1.2 mg"},
    {"LO", "not a number: LO"},
    {"", "not a number: "},
    {"1 2", "not a number: 1 2"},
    {"01.2", "not a number: 01.2"},
};

BloodKetones ketones(std::int64_t tenths) {
  return BloodKetones{Decimal::of_micros(tenths * 100'000), kMillimolePerLitre};
}

}  // namespace

BOOST_AUTO_TEST_SUITE(glucose)

BOOST_DATA_TEST_CASE(a_typed_reading_is_taken_only_when_a_meter_shows_it_in_that_unit, data::make(kReadings), row) {
  BOOST_TEST(reading_read(row.text, row.usual, DecimalMark::point) == row.read);
}

BOOST_AUTO_TEST_CASE(a_comma_is_a_decimal_mark_only_where_the_language_says_so) {
  BOOST_TEST(reading_read("3,9", kMoles, DecimalMark::point_or_comma) == "3.9 mmol/L");
  BOOST_TEST(reading_read("3,9", kMoles, DecimalMark::point) == "not a number: 3,9");
  const auto refused = glucose_from_text("3,9", kMoles, DecimalMark::point);
  BOOST_TEST((std::get<GlucoseRefusal>(refused).number == NumberMistake::comma_not_point));
}

BOOST_AUTO_TEST_CASE(every_reading_of_a_meter_is_written_and_read_back_the_same) {
  for (std::int64_t number = 20; number <= 600; ++number) {
    const auto back = glucose_from_text(text_from_glucose(in_mg_per_dl(number)), kMoles);
    BOOST_REQUIRE(std::holds_alternative<Glucose>(back));
    BOOST_REQUIRE((std::get<Glucose>(back) == in_mg_per_dl(number)));
  }
  for (std::int64_t tenths = 11; tenths <= 333; ++tenths) {
    const auto back = glucose_from_text(text_from_glucose(in_mmol_per_l(tenths * 100)), kMass);
    BOOST_REQUIRE(std::holds_alternative<Glucose>(back));
    BOOST_REQUIRE((std::get<Glucose>(back) == in_mmol_per_l(tenths * 100)));
  }
}

BOOST_AUTO_TEST_CASE(a_reading_is_compared_with_the_limit_of_its_own_unit) {
  BOOST_TEST(compare(in_mg_per_dl(69), kLow) == -1);
  BOOST_TEST(compare(in_mg_per_dl(70), kLow) == 0);
  BOOST_TEST(compare(in_mg_per_dl(71), kLow) == 1);
  BOOST_TEST(compare(in_mmol_per_l(3'800), kLow) == -1);
  BOOST_TEST(compare(in_mmol_per_l(3'900), kLow) == 0);
  BOOST_TEST(compare(in_mmol_per_l(4'000), kLow) == 1);
}

BOOST_AUTO_TEST_CASE(lo_is_below_and_hi_above_every_limit) {
  const std::vector<GlucoseLimit> limits = {kLow, {Decimal{}, Decimal{}}, {Decimal::whole(900), Decimal::whole(50)}};
  for (const GlucoseLimit& limit : limits) {
    for (const GlucoseUnit unit : {kMass, kMoles}) {
      BOOST_TEST(compare(Glucose::lo(unit), limit) == -1);
      BOOST_TEST(compare(Glucose::hi(unit), limit) == 1);
    }
  }
}

BOOST_AUTO_TEST_CASE(lo_and_hi_have_no_number) {
  BOOST_TEST(!Glucose::lo(kMass).number().has_value());
  BOOST_TEST(!Glucose::hi(kMoles).number().has_value());
  BOOST_TEST((Glucose::lo(kMass) != in_mg_per_dl(0)));
}

BOOST_AUTO_TEST_SUITE_END()

BOOST_AUTO_TEST_SUITE(blood_ketones)

BOOST_DATA_TEST_CASE(a_typed_ketone_reading_in_mg_per_dl_is_asked_about, data::make(kKetoneRows), row) {
  BOOST_TEST(read_ketones(row.text) == row.read);
}

BOOST_AUTO_TEST_CASE(ketones_are_compared_with_the_limit_and_hi_is_above_it) {
  BOOST_TEST(compare(KetoneReading::reading(ketones(5)), ketones(6)) == -1);
  BOOST_TEST(compare(KetoneReading::reading(ketones(6)), ketones(6)) == 0);
  BOOST_TEST(compare(KetoneReading::reading(ketones(7)), ketones(6)) == 1);
  BOOST_TEST(compare(KetoneReading::hi(), ketones(6)) == 1);
  BOOST_TEST(compare(KetoneReading::hi(), ketones(990)) == 1);
}

BOOST_AUTO_TEST_SUITE_END()
