// The doses of the reference set on a sick day, against what the published sources print.
#include <boost/test/data/test_case.hpp>
#include <boost/test/unit_test.hpp>

#include "episode/sick_night.hpp"
#include "nights/walked_set.hpp"

using namespace rushlight;
using namespace rushlight::test;
namespace data = boost::unit_test::data;

namespace {

const CheckedProtocol& reference(const char* protocol) {
  return walked_protocol(RUSHLIGHT_SOURCE_DIR "/protocols/reference", protocol, true);
}

/// A child with a daily dose of 100 units, so that units read as percent, and a pen that steps by half a unit.
Child of_100_units() {
  Child child = sick_mara();
  child.total_daily_dose = InsulinDose{Decimal::whole(100), kInsulinUnit};
  return child;
}

Night with_readings(Child child, const std::string& glucose, const std::string& ketones, const std::string& urine) {
  Night night(std::move(child), reference("ketones"));
  night.answer("already-given", "no").answer("last-rapid-insulin", "none").answer("glucose", glucose);
  night.answer("ketones", ketones).answer("urine-ketones", urine);
  return night;
}

int whole_units(const DoseResult& dose) {
  if (!dose.amount) return 0;
  return static_cast<int>(dose.amount->value.micros() / Decimal::kMicrosPerOne);
}

/// A cell as it is printed: "5-10" leaves the clinic a choice.
struct Cell {
  const char* ketones;  // blood
  const char* urine;    // the printed pair of it
  const char* glucose;
  int least, most;  // percent of the total daily dose
  friend std::ostream& operator<<(std::ostream& out, const Cell& cell) {
    return out << cell.ketones << " (" << cell.urine << ") at " << cell.glucose;
  }
};

/// Source: Indian Council of Medical Research 2022, Guidelines for Management of Type 1 Diabetes, sick-day Table I,
/// "modified from ISPAD 2018"; every cell. Print leaves 3.0, 250 and 400 to the reader: they count to the graver side
/// here.
const Cell kMatrix[] = {
    {"0.4 mmol/L", "negative", "200 mg/dL", 0, 0},   {"0.4 mmol/L", "negative", "300 mg/dL", 5, 5},
    {"0.4 mmol/L", "negative", "450 mg/dL", 10, 10}, {"0.8 mmol/L", "small", "215 mg/dL", 5, 5},
    {"0.8 mmol/L", "small", "300 mg/dL", 5, 10},     {"0.8 mmol/L", "small", "450 mg/dL", 10, 10},
    {"1.2 mmol/L", "", "215 mg/dL", 5, 10},          {"1.2 mmol/L", "", "300 mg/dL", 10, 10},
    {"1.2 mmol/L", "", "450 mg/dL", 10, 10},         {"2.0 mmol/L", "moderate", "215 mg/dL", 5, 10},
    {"2.0 mmol/L", "moderate", "300 mg/dL", 20, 20}, {"2.0 mmol/L", "moderate", "450 mg/dL", 20, 20},
    {"3.5 mmol/L", "large", "215 mg/dL", 10, 10},    {"3.5 mmol/L", "large", "300 mg/dL", 20, 20},
    {"3.5 mmol/L", "large", "450 mg/dL", 20, 20},    {"3.0 mmol/L", "", "300 mg/dL", 20, 20},
    {"0.4 mmol/L", "", "250 mg/dL", 5, 5},           {"0.4 mmol/L", "", "400 mg/dL", 10, 10},
    {"2.0 mmol/L", "", "250 mg/dL", 20, 20},         {"0.9 mmol/L", "", "215 mg/dL", 5, 5},
    {"1.5 mmol/L", "", "300 mg/dL", 20, 20},
};

/// Source: UTMB Pediatrics, 4-2-1 (Holliday and Segar 1957); 14, 25 and 30 kg also as worked examples of public
/// explainers.
struct Weighed {
  int kilograms, millilitres;
  friend std::ostream& operator<<(std::ostream& out, const Weighed& row) { return out << row.kilograms << " kg"; }
};
std::vector<Weighed> four_two_one() {
  std::vector<Weighed> rows = {{14, 48}, {25, 65}, {30, 70}};
  for (int kg = 1; kg <= 70; ++kg) {
    const int first = std::min(kg, 10), next = std::min(std::max(kg - 10, 0), 10), rest = std::max(kg - 20, 0);
    rows.push_back({kg, 4 * first + 2 * next + rest});
  }
  return rows;
}

/// Source: Children's Hospital of Philadelphia, pump: ketone instructions, 1 US fluid ounce each hour for each year.
/// To the nearest 5 mL; from 12 years as for 12.
constexpr double kFluidOunce = 29.57;
constexpr int kMostYears = 12;
/// Source: Akron Children's Hospital, sick days: about half a cup each hour.
constexpr double kHalfACup = 120;

/// Source: Haymond and Schreiner 2001; Royal Children's Hospital Melbourne and ICMR 2022 Box 2 print the same table.
int mini_dose_in_micrograms(int years) { return years <= 2 ? 20 : std::min(10 * years, 150); }

}  // namespace

BOOST_AUTO_TEST_SUITE(published_sick_day_doses)

BOOST_DATA_TEST_CASE(extra_insulin_follows_every_cell_of_the_printed_matrix, data::make(kMatrix)) {
  const DoseResult dose =
      dose_now(with_readings(of_100_units(), sample.glucose, sample.ketones, "unknown"), "ketone-insulin");
  BOOST_TEST(whole_units(dose) >= sample.least, dose.working);
  BOOST_TEST(whole_units(dose) <= sample.most, dose.working);
}

BOOST_DATA_TEST_CASE(urine_strip_leads_to_the_same_cell_as_its_printed_pair, data::make(kMatrix)) {
  if (std::string(sample.urine).empty()) return;
  const DoseResult dose =
      dose_now(with_readings(of_100_units(), sample.glucose, "unknown", sample.urine), "ketone-insulin");
  BOOST_TEST(whole_units(dose) >= sample.least, dose.working);
  BOOST_TEST(whole_units(dose) <= sample.most, dose.working);
}

BOOST_AUTO_TEST_CASE(extra_insulin_is_never_more_than_a_fifth_of_the_daily_dose_nor_twenty_units) {
  Child child = of_100_units();  // source: Alder Hey: 20 % of the daily dose, 20 units
  child.weight = BodyWeight{Decimal::whole(100), kKilogram};
  child.total_daily_dose = InsulinDose{Decimal::whole(150), kInsulinUnit};
  BOOST_TEST(whole_units(dose_now(with_readings(child, "450 mg/dL", "3.5 mmol/L", "unknown"), "extra-insulin")) == 20);
  child.total_daily_dose = InsulinDose{Decimal::whole(50), kInsulinUnit};
  BOOST_TEST(whole_units(dose_now(with_readings(child, "450 mg/dL", "3.5 mmol/L", "unknown"), "extra-insulin")) == 10);
}

BOOST_AUTO_TEST_CASE(extra_insulin_is_never_more_than_0_4_units_for_each_kilogram) {
  Child child = of_100_units();  // source: Medscape 2021, 2 units for each kilogram a day; a fifth
  child.total_daily_dose = InsulinDose{Decimal::whole(400), kInsulinUnit};
  for (const int kilograms : {5, 10, 25, 50}) {
    child.weight = BodyWeight{Decimal::whole(kilograms), kKilogram};
    const Night night = with_readings(child, "450 mg/dL", "3.5 mmol/L", "unknown");
    BOOST_TEST(whole_units(dose_now(night, "extra-insulin")) == kilograms * 2 / 5, kilograms << " kg");
  }
}

BOOST_DATA_TEST_CASE(fluid_of_an_hour_follows_four_two_one, data::make(four_two_one())) {
  Child child = sick_mara();
  child.weight = BodyWeight{Decimal::whole(sample.kilograms), kKilogram};
  const DoseResult dose = dose_now(Night(child, reference("illness")), "fluid-hour");
  BOOST_REQUIRE(dose.amount.has_value());
  BOOST_TEST(text_from_quantity(*dose.amount) == std::to_string(sample.millilitres) + " mL", dose.working);
}

BOOST_DATA_TEST_CASE(fluid_of_an_hour_is_an_ounce_for_each_year_or_half_a_cup_or_maintenance,
                     data::make(four_two_one())) {
  const std::string harbour_lane = RUSHLIGHT_SOURCE_DIR "/protocols/harbour-lane";
  struct {
    const CheckedProtocol* protocol;
    double most;
  } const files[] = {{&reference("ketones"), kMostYears * kFluidOunce},
                     {&walked_protocol(harbour_lane, "ketones", true), kMostYears * kFluidOunce},
                     {&walked_protocol(harbour_lane, "illness", true), kHalfACup}};
  for (const auto& file : files) {
    for (int years = 1; years <= 18; ++years) {
      Child child = sick_mara();
      child.birth = *day_from_text(std::to_string(2026 - years) + "-02-15");
      child.weight = BodyWeight{Decimal::whole(sample.kilograms), kKilogram};
      const DoseResult dose = dose_now(Night(child, *file.protocol), "fluid-hour");
      BOOST_REQUIRE(dose.amount.has_value());
      const double expected = std::max(std::min(years * kFluidOunce, file.most), 1.0 * sample.millilitres);
      const auto millilitres = static_cast<double>(dose.amount->value.micros() / Decimal::kMicrosPerOne);
      BOOST_TEST(std::abs(millilitres - expected) <= 2.5, years << " a: " << dose.working);
    }
  }
}

BOOST_DATA_TEST_CASE(baby_below_one_year_drinks_maintenance, data::make(four_two_one())) {
  for (const char* protocol : {"ketones", "illness"}) {
    Child child = sick_mara();
    child.birth = *day_from_text("2025-06-15");
    child.weight = BodyWeight{Decimal::whole(sample.kilograms), kKilogram};
    for (const char* set : {"reference", "harbour-lane"}) {
      const std::string folder = RUSHLIGHT_SOURCE_DIR "/protocols/" + std::string(set);
      const DoseResult dose = dose_now(Night(child, walked_protocol(folder, protocol, true)), "fluid-hour");
      BOOST_REQUIRE(dose.amount.has_value());
      BOOST_TEST(text_from_quantity(*dose.amount) == std::to_string(sample.millilitres) + " mL", set << dose.working);
    }
  }
}

BOOST_DATA_TEST_CASE(mini_dose_follows_the_printed_table_from_birth_to_18, data::xrange(0, 19)) {
  Child child = sick_mara();
  child.birth = *day_from_text(std::to_string(2026 - sample) + "-02-15");
  const DoseResult dose = dose_now(Night(child, reference("illness")), "mini-glucagon");
  BOOST_REQUIRE(dose.amount.has_value());
  BOOST_TEST(text_from_quantity(*dose.amount) == std::to_string(mini_dose_in_micrograms(sample)) + " ug", dose.working);
}

BOOST_AUTO_TEST_SUITE_END()
