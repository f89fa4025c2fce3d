// Sick-day amounts that a source prints beside their inputs: the insulin table cell by cell, fluids by weight,
// mini-dose glucagon by age. `elsewhere` says what other published sources print for the same child.
#include <boost/test/data/monomorphic.hpp>
#include <boost/test/data/test_case.hpp>
#include <boost/test/unit_test.hpp>
#include <ostream>
#include <string>
#include <vector>

#include "episode/sick_night.hpp"
#include "nights/walked_set.hpp"

using namespace rushlight;
using namespace rushlight::test;
namespace data = boost::unit_test::data;

namespace {

Night night_of(const std::string& protocol, Child child) {
  return Night(std::move(child), walked_protocol(RUSHLIGHT_SOURCE_DIR "/protocols/reference", protocol, true));
}

std::string said(const DoseResult& dose) { return dose.amount ? text_from_quantity(*dose.amount) : "no dose"; }

struct InsulinRow {
  const char* daily;
  const char* glucose;
  const char* ketones;  // blood; or a word of the urine strip
  const char* answer;
  const char* source;
  const char* elsewhere = "";
};

std::ostream& operator<<(std::ostream& out, const InsulinRow& row) {
  out << row.daily << " units a day, glucose " << row.glucose << ", ketones " << row.ketones << " -> " << row.answer
      << " (" << row.source << ")";
  if (*row.elsewhere) out << " [elsewhere: " << row.elsewhere << "]";
  return out;
}

constexpr const char* kIndia = "Indian Council of Medical Research 2022, Table I, modified from ISPAD 2018";
constexpr const char* kIndiaRange =
    "Indian Council of Medical Research 2022, Table I: 5 to 10 %; the lower here below 1.5";
constexpr const char* kIndiaUpper =
    "Indian Council of Medical Research 2022, Table I: 5 to 10 %; ISPAD 10 %, from memory";
constexpr const char* kIspad = "ISPAD 2018 table of extra insulin, from memory";
constexpr const char* kEdge = "common practice, no source: a border belongs to the row or column above it";

const std::vector<InsulinRow> kInsulin = {
    // Glucose 180 to 250 mg/dL.
    {"40", "215 mg/dL", "0.4 mmol/L", "no dose", kIndia},
    {"40", "215 mg/dL", "negative", "no dose", kIndia},
    {"40", "215 mg/dL", "0.8 mmol/L", "2 [iU]", kIndia},
    {"40", "215 mg/dL", "small", "2 [iU]", kIndia},
    {"40", "215 mg/dL", "1.2 mmol/L", "2 [iU]", kIndiaRange},
    {"40", "215 mg/dL", "2.0 mmol/L", "4 [iU]", kIndiaUpper},
    {"40", "215 mg/dL", "moderate", "4 [iU]", kIndiaUpper},
    {"40", "215 mg/dL", "3.5 mmol/L", "4 [iU]", kIndia},
    {"40", "215 mg/dL", "large", "4 [iU]", kIndia},
    // 250 to 400.
    {"40", "300 mg/dL", "0.4 mmol/L", "2 [iU]", kIndia, "a US textbook of emergency medicine: 5 %"},
    {"40", "300 mg/dL", "0.8 mmol/L", "2 [iU]", kIndiaRange},
    {"40", "300 mg/dL", "1.2 mmol/L", "4 [iU]", kIndia},
    {"40", "300 mg/dL", "2.0 mmol/L", "8 [iU]", kIndia, "ISPAD, from memory: 10 to 20 %"},
    {"40", "300 mg/dL", "moderate", "8 [iU]", kIndia, "a US textbook of emergency medicine: 10 %"},
    {"40", "300 mg/dL", "3.5 mmol/L", "8 [iU]", kIndia},
    // Above 400.
    {"40", "450 mg/dL", "0.4 mmol/L", "4 [iU]", kIndia},
    {"40", "450 mg/dL", "0.8 mmol/L", "4 [iU]", kIndia},
    {"40", "450 mg/dL", "1.2 mmol/L", "4 [iU]", kIndia},
    {"40", "450 mg/dL", "2.0 mmol/L", "8 [iU]", kIndia},
    {"40", "450 mg/dL", "3.5 mmol/L", "8 [iU]", kIndia},
    {"40", "HI", "2.0 mmol/L", "8 [iU]", "NHS Tayside: the percent table when the meter shows HI"},
    // Edges and gaps of the print.
    {"40", "250 mg/dL", "0.4 mmol/L", "2 [iU]", kEdge},
    {"40", "249 mg/dL", "0.4 mmol/L", "no dose", kEdge},
    {"40", "400 mg/dL", "0.4 mmol/L", "4 [iU]", kEdge},
    {"40", "399 mg/dL", "0.4 mmol/L", "2 [iU]", kEdge},
    {"40", "300 mg/dL", "0.9 mmol/L", "2 [iU]", kEdge},
    {"40", "300 mg/dL", "1.4 mmol/L", "4 [iU]", kEdge},
    {"40", "300 mg/dL", "1.5 mmol/L", "8 [iU]", kEdge},
    {"40", "300 mg/dL", "3.0 mmol/L", "8 [iU]", kEdge},
    // Normal and low glucose with ketones.
    {"16", "8.0 mmol/L", "1.7 mmol/L", "0.5 [iU]", "ISPAD 2018, from memory: 5 % with sugary drinks, 0.8 rounded down"},
    {"40", "150 mg/dL", "1.2 mmol/L", "no dose", kIspad},
    {"40", "99 mg/dL", "2.0 mmol/L", "no dose", "ISPAD 2018, from memory: none below 100 mg/dL"},
    // Printed examples.
    {"10", "19.0 mmol/L", "1.0 mmol/L", "1 [iU]", "Irish emergency paediatrics: 10 % of 10 units, age 5"},
    {"40", "16.0 mmol/L", "1.0 mmol/L", "4 [iU]", "Royal Children's Hospital Melbourne: 10 % above 15 mmol/L from 1.0"},
    {"38", "16.0 mmol/L", "1.7 mmol/L", "7.5 [iU]", kIndia, "NHS North West London 2024: 10 %, 3.8 and so 4 units"},
    {"50", "300 mg/dL", "2.0 mmol/L", "10 [iU]", "Alder Hey: one dose at most 20 %, 10 of 50 units"},
    {"150", "300 mg/dL", "2.0 mmol/L", "20 [iU]", "Alder Hey: one dose at most 20 units"},
};

Night measured(const InsulinRow& row, std::optional<CorrectionFactor> factor = std::nullopt) {
  Child child = sick_mara();
  child.total_daily_dose = InsulinDose{std::get<Decimal>(decimal_from_text(row.daily)), kInsulinUnit};
  child.weight = BodyWeight{Decimal::whole(100), kKilogram};  // the print goes by the daily dose alone
  child.correction_factor = factor;
  const std::string ketones = row.ketones;
  const bool blood = ketones.find(' ') != std::string::npos;
  child.strips = blood ? Strips::blood : Strips::urine;
  Night night = night_of("ketones", child);
  night.answer("awake", "yes").answer("already-given", "no").answer("last-rapid-insulin", "none");
  return night.answer("glucose", row.glucose).answer(blood ? "ketones" : "urine-ketones", ketones);
}

struct CorrectionRow {
  const char* glucose;
  const char* ketones;
  const char* answer;
  const char* source;
};

std::ostream& operator<<(std::ostream& out, const CorrectionRow& row) {
  return out << "glucose " << row.glucose << ", ketones " << row.ketones << " -> " << row.answer << " (" << row.source
             << ")";
}

constexpr const char* kLarger =
    "Children's Hospital of Philadelphia: the larger of ketone dose and correction, not both";

// One unit brings 50 mg/dL, the target is 126 mg/dL, the daily dose 30 units.
const std::vector<CorrectionRow> kCorrections = {
    {"300 mg/dL", "0.8 mmol/L", "3 [iU]", kLarger},                                      // 5 % is 1.5; 174 / 50 is 3.48
    {"300 mg/dL", "2.0 mmol/L", "6 [iU]", kLarger},                                      // 20 % is 6
    {"390 mg/dL", "0.4 mmol/L", "5 [iU]", kLarger},                                      // 264 / 50 is 5.28
    {"500 mg/dL", "0.8 mmol/L", "6 [iU]", "Alder Hey: at most 20 % of the daily dose"},  // 374 / 50 is 7.48
    {"HI", "0.8 mmol/L", "3 [iU]", "NHS Tayside: HI makes a calculator unusable"},
    {"215 mg/dL", "0.4 mmol/L", "no dose", "no extra insulin in this cell of the table"},
};

struct FluidRow {
  const char* birth;
  const char* weight;
  const char* dose;
  const char* answer;
  const char* source;
};

std::ostream& operator<<(std::ostream& out, const FluidRow& row) {
  return out << "born " << row.birth << ", " << (*row.weight ? row.weight : "unknown") << " kg: " << row.dose << " "
             << row.answer << " (" << row.source << ")";
}

constexpr const char* kMaintenance = "4-2-1 mL/kg each hour, UTMB";
constexpr const char* kOunce = "Children's Hospital of Philadelphia: 1 ounce for each year each hour";
constexpr const char* kHaymond = "Haymond and Schreiner 2001";

const std::vector<FluidRow> kAmounts = {
    {"2016-01-15", "30", "fluid-hour", "70 mL", "UTMB: 40 + 20 + 10 mL"},
    {"2018-01-15", "25", "fluid-hour", "65 mL", "public teaching pages: 40 + 20 + 5 mL"},
    {"2022-01-15", "14", "fluid-hour", "48 mL", "public teaching page: 40 + 8 mL"},
    {"2024-01-15", "10", "fluid-hour", "40 mL", kMaintenance},
    {"2020-01-15", "20", "fluid-hour", "60 mL", kMaintenance},
    {"2024-01-15", "9.9", "fluid-hour", "39 mL", kMaintenance},
    {"2020-02-15", "", "fluid-hour", "175 mL", kOunce},
    {"2025-01-15", "", "fluid-hour", "30 mL", kOunce},
    {"2022-02-15", "14", "extra-drink", "70 mL", "Paediatric Pearls, after NICE CG84: 70 mL for each stool or vomit"},
    {"2024-09-15", "", "extra-drink", "50 mL", "WHO plan A, below 2 years: 50 to 100 mL"},
    {"2020-01-15", "", "extra-drink", "100 mL", "WHO plan A, 2 to 10 years: 100 to 200 mL"},
    {"2017-01-15", "28", "mini-glucagon", "90 ug", "KidsHealth New Zealand: 9 years, 9 marks"},
    {"2024-02-15", "12", "mini-glucagon", "20 ug", kHaymond},
    {"2025-02-15", "10", "mini-glucagon", "20 ug", kHaymond},
    {"2023-03-15", "13", "mini-glucagon", "20 ug", "2 years and 11 months: completed years count"},
    {"2023-02-15", "14", "mini-glucagon", "30 ug", kHaymond},
    {"2016-01-15", "30", "mini-glucagon", "100 ug",
     "Indian Council of Medical Research 2022, Box 2: 10 years, 10 marks"},
    {"2011-01-15", "55", "mini-glucagon", "150 ug", kHaymond},
    {"2009-01-15", "60", "mini-glucagon", "150 ug",
     "Haymond and Schreiner 2001: at most 150 ug; UW Health: 17 years, 15 marks"},
    {"2016-01-15", "30", "double-mini", "200 ug", "Haymond and Schreiner 2001: double when not risen"},
};

}  // namespace

BOOST_AUTO_TEST_SUITE(published_sick_day_doses)

BOOST_DATA_TEST_CASE(ketones_get_the_printed_part_of_the_daily_dose, data::make(kInsulin), row) {
  BOOST_TEST(said(dose_now(measured(row), "extra-insulin")) == row.answer, row);
}

BOOST_DATA_TEST_CASE(larger_of_ketone_dose_and_correction_counts_up_to_the_cap, data::make(kCorrections), row) {
  const InsulinRow told{"30", row.glucose, row.ketones, row.answer, row.source};
  const Night night = measured(told, CorrectionFactor{Decimal::whole(50), GlucoseUnit::mg_per_dl});
  BOOST_TEST(said(dose_now(night, "extra-insulin")) == row.answer, row);
}

BOOST_DATA_TEST_CASE(drinks_and_mini_dose_are_the_printed_ones, data::make(kAmounts), row) {
  Child child = sick_mara();
  child.birth = *day_from_text(row.birth);
  child.weight.reset();
  if (*row.weight) child.weight = BodyWeight{std::get<Decimal>(decimal_from_text(row.weight)), kKilogram};
  BOOST_TEST(said(dose_now(night_of("illness", child), row.dose)) == row.answer, row);
}

BOOST_AUTO_TEST_SUITE_END()
