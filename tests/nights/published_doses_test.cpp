// Each row names the published source that prints the answer beside the weight or the age; `elsewhere` says what other
// published sources print for the same child, so that a clinic sees where it may choose otherwise.
#include <boost/test/data/monomorphic.hpp>
#include <boost/test/data/test_case.hpp>
#include <boost/test/unit_test.hpp>
#include <map>
#include <ostream>
#include <string>
#include <vector>

#include "episode/night.hpp"

using namespace rushlight;
using rushlight::test::checked;
using rushlight::test::mara;
using rushlight::test::Night;

namespace {

const std::vector<std::string> kSets = {"reference", "harbour-lane"};

const CheckedProtocol& low_of(const std::string& set) {
  static std::map<std::string, CheckedProtocol> read;
  auto found = read.find(set);
  if (found == read.end()) {
    found = read.emplace(set, checked(RUSHLIGHT_SOURCE_DIR "/protocols/" + set + "/low.xml")).first;
  }
  return found->second;
}

struct ChildRow {
  const char* birth;   // the night is 1 March 2026
  const char* weight;  // kilograms; empty: unknown
  Delivery delivery = Delivery::injections;
  std::optional<RescueKind> rescue = std::nullopt;
  const char* expires = "2027-06-30";
};

Child child_of(const ChildRow& row) {
  Child child = mara();
  child.birth = *day_from_text(row.birth);
  child.delivery = row.delivery;
  if (std::string(row.weight).empty()) {
    child.weight.reset();
    child.weighed.reset();
  } else {
    child.weight = BodyWeight{std::get<Decimal>(decimal_from_text(row.weight)), kKilogram};
  }
  child.rescue.clear();
  if (row.rescue) child.rescue.push_back({*row.rescue, *day_from_text(row.expires), "kitchen drawer"});
  return child;
}

std::ostream& operator<<(std::ostream& out, const ChildRow& row) {
  out << "born " << row.birth << ", "
      << (std::string(row.weight).empty() ? "weight unknown" : row.weight + std::string(" kg"));
  if (row.delivery == Delivery::automatic_pump) out << ", automatic pump";
  if (row.rescue) out << ", " << name_of(*row.rescue) << " until " << row.expires;
  return out;
}

/// The amount that an action of the step states, in words; "no dose" when none states one.
std::string amount_shown(const View& view, const std::string& action) {
  for (const ShownAction& shown : view.actions) {
    if (shown.name == action && shown.dose && shown.dose->amount) return text_from_quantity(*shown.dose->amount);
  }
  return "no dose";
}

struct CarbohydrateRow {
  ChildRow child;
  const char* answer;
  const char* source;
  const char* elsewhere = "";
};

std::ostream& operator<<(std::ostream& out, const CarbohydrateRow& row) {
  out << row.child << " -> " << row.answer << " of carbohydrate (" << row.source << ")";
  if (*row.elsewhere) out << " [elsewhere: " << row.elsewhere << "]";
  return out;
}

constexpr const char* kIspad = "ISPAD 2018/2022 hypoglycaemia, 0.3 g/kg, from memory";
constexpr const char* kIndia = "Indian Council of Medical Research 2022, acute complications, 0.3 g/kg";
constexpr const char* kItaly = "Italian Society of Pediatric Endocrinology and Diabetology 2024, 0.3 g/kg";
constexpr const char* kItalyAutomatic =
    "Italian Society of Pediatric Endocrinology and Diabetology 2024, 0.1 g/kg on an automatic pump";
constexpr const char* kMelbourneAutomatic = "Royal Children's Hospital Melbourne 2024, pumps: 4 to 5 g up to 5 years";
constexpr const char* kSheffield = "Sheffield Children's NHS, 5 to 15 g guided by 0.3 g/kg";
constexpr const char* kScotland = "Scottish Dental Clinical Effectiveness Programme, bands by age";

const std::vector<CarbohydrateRow> kCarbohydrate = {
    {{"2016-01-15", "30"}, "9 g", kIspad, "BC Children's Hospital band: 10 g"},
    {{"2022-01-15", "15"}, "5 g", kIndia, "BC Children's Hospital band: 10 g"},
    {{"2012-01-15", "50"}, "15 g", kIspad, "BC Children's Hospital band: 15 g"},
    {{"2022-01-15", "14.9"}, "5 g", kItaly, "BC Children's Hospital band: 5 g"},
    {{"2016-01-15", "30.1"}, "10 g", kItaly, "BC Children's Hospital band: 15 g"},
    {{"2018-01-15", "24.9"}, "8 g", kItaly, "Royal Children's Hospital Melbourne band: 5 g below 25 kg"},
    {{"2018-01-15", "25"}, "8 g", kItaly, "Royal Children's Hospital Melbourne: 10 g above 25 kg"},
    {{"2018-01-15", "28"}, "9 g", kItaly, "Royal Children's Hospital Melbourne: 10 g"},
    {{"2024-06-15", "10"}, "5 g", kSheffield, "UC Davis from 16 months: 8 g"},
    {{"2010-01-15", "80"}, "15 g", kSheffield, "UC Davis from 11 years: 16 g"},
    {{"2023-01-15", ""}, "5 g", kScotland, "Alberta Health below 5 years: 5 g"},
    {{"2020-03-02", ""},
     "5 g",
     kScotland,
     "5 years stands in two bands there, 5 g and 10 g; Melbourne up to 5 years: 5 g"},
    {{"2020-03-01", ""}, "10 g", kScotland, "Melbourne from 6 years: 10 g"},
    {{"2018-01-15", ""}, "10 g", kScotland, "Alberta Health from 5 to 10 years: 10 g"},
    {{"2014-03-02", ""}, "10 g", kScotland, "Alberta Health above 10 years: 15 g"},
    {{"2014-03-01", ""}, "15 g", kScotland, "Alberta Health above 10 years: 15 g"},
    {{"2008-06-15", ""}, "15 g", kScotland},
    {{"2016-01-15", "30", Delivery::automatic_pump}, "4 g", kMelbourneAutomatic, "Italy, 0.1 g/kg: 3 g"},
    {{"2012-01-15", "50", Delivery::automatic_pump}, "5 g", kItalyAutomatic, "Bradford closed loop: 5 to 8 g"},
    {{"2024-06-15", "10", Delivery::automatic_pump},
     "4 g",
     kMelbourneAutomatic,
     "Italy, 0.1 g/kg: 1 g"},
    {{"2010-01-15", "90", Delivery::automatic_pump}, "8 g", "Bradford Teaching Hospitals NHS, closed loop, 5 to 8 g"},
    {{"2016-01-15", "", Delivery::automatic_pump}, "5 g", "Bradford Teaching Hospitals NHS, closed loop, 5 to 8 g"},
};

struct GlucagonRow {
  ChildRow child;
  const char* answer;
  const char* source;
  const char* elsewhere = "";
};

std::ostream& operator<<(std::ostream& out, const GlucagonRow& row) {
  out << row.child << " -> " << row.answer << " (" << row.source << ")";
  if (*row.elsewhere) out << " [elsewhere: " << row.elsewhere << "]";
  return out;
}

constexpr const char* kLabel = "US label, glucagon for injection, 2021, section 2.2";
constexpr const char* kNasal = "US label, nasal glucagon, revised 03/2025: 3 mg, any weight, from 1 year";
constexpr const char* kPremixed = "US label, premixed glucagon, from 2 years";
constexpr const char* kPremixedDose = "US label, premixed glucagon, section 2, revised 3/2025: 45 kg or 12 years";

const std::vector<GlucagonRow> kGlucagon = {
    {{"2018-06-15", "24", Delivery::injections, RescueKind::injection},
     "0.5 mg",
     kLabel,
     "1 mg: Glasgow 2016, Sydney, Nova Scotia 2003"},
    {{"2018-06-15", "24.9", Delivery::injections, RescueKind::injection},
     "0.5 mg",
     kLabel,
     "20 kg rule (India 2022): 1 mg"},
    {{"2018-06-15", "25", Delivery::injections, RescueKind::injection},
     "1 mg",
     "Therapeutic Guidelines (Australia): 1 mg at 25 kg and more",
     "the US label leaves exactly 25 kg open"},
    {{"2018-06-15", "25.1", Delivery::injections, RescueKind::injection}, "1 mg", kLabel},
    {{"2021-06-15", "26", Delivery::injections, RescueKind::injection},
     "1 mg",
     "US label: age counts only when the weight is unknown",
     "UK, below 8 years or below 25 kg: 0.5 mg"},
    {{"2016-06-15", "24", Delivery::injections, RescueKind::injection},
     "0.5 mg",
     "US label: age counts only when the weight is unknown"},
    {{"2020-03-02", "", Delivery::injections, RescueKind::injection},
     "0.5 mg",
     "US label, weight unknown, below 6 years"},
    {{"2020-03-01", "", Delivery::injections, RescueKind::injection},
     "1 mg",
     "US label, weight unknown, from 6 years",
     "UK leaflets below 8 years: 0.5 mg"},
    {{"2010-06-15", "80", Delivery::injections, RescueKind::injection}, "1 mg", kLabel},
    {{"2025-03-02", "9", Delivery::injections, RescueKind::nasal}, "no dose", kNasal},
    {{"2025-03-01", "9", Delivery::injections, RescueKind::nasal},
     "3 mg",
     kNasal,
     "EU 2024 and India 2022: from 4 years"},
    {{"2016-06-15", "30", Delivery::injections, RescueKind::nasal}, "3 mg", kNasal},
    {{"2010-06-15", "80", Delivery::injections, RescueKind::nasal}, "3 mg", kNasal},
    {{"2016-06-15", "", Delivery::injections, RescueKind::nasal}, "3 mg", kNasal},
    {{"2024-03-02", "12", Delivery::injections, RescueKind::premixed}, "no dose", kPremixed},
    {{"2024-03-01", "12", Delivery::injections, RescueKind::premixed}, "0.5 mg", kPremixedDose},
    {{"2015-06-15", "44.9", Delivery::injections, RescueKind::premixed}, "0.5 mg", kPremixedDose},
    {{"2015-06-15", "45", Delivery::injections, RescueKind::premixed}, "1 mg", kPremixedDose},
    {{"2014-03-02", "30", Delivery::injections, RescueKind::premixed}, "0.5 mg", kPremixedDose},
    {{"2014-03-01", "30", Delivery::injections, RescueKind::premixed}, "1 mg", kPremixedDose},
    {{"2016-06-15", "30", Delivery::injections, RescueKind::injection, "2026-02-28"},
     "no dose",
     "common practice, no source: an expired medicine is the dispatcher's to allow"},
    {{"2016-06-15", "30"}, "no dose", "no rescue medicine at home: the emergency call, Diabetes UK"},
};

struct LevelRow {
  const char* set;
  GlucoseUnit unit;
  const char* reading;
  const char* step;
  const char* source;
};

std::ostream& operator<<(std::ostream& out, const LevelRow& row) {
  return out << row.set << ": " << row.reading << " -> " << row.step << " (" << row.source << ")";
}

constexpr const char* kLevel1 = "level 1: ADA 2017 Table 6.3, below 70 mg/dL (3.9 mmol/L)";
constexpr const char* kLevel2 = "level 2: International Hypoglycaemia Study Group 2017, below 54 mg/dL (3.0 mmol/L)";
constexpr const char* kHarbour = "common practice, no source: below 65 mg/dL";

const std::vector<LevelRow> kLevels = {
    {"reference", GlucoseUnit::mg_per_dl, "70 mg/dL", "not-low", kLevel1},
    {"reference", GlucoseUnit::mg_per_dl, "69 mg/dL", "treat", kLevel1},
    {"reference", GlucoseUnit::mg_per_dl, "54 mg/dL", "treat", kLevel2},
    {"reference", GlucoseUnit::mg_per_dl, "53 mg/dL", "treat-very-low", kLevel2},
    {"reference", GlucoseUnit::mg_per_dl, "LO", "treat-very-low", kLevel2},
    {"reference", GlucoseUnit::mmol_per_l, "3.9 mmol/L", "not-low", kLevel1},
    {"reference", GlucoseUnit::mmol_per_l, "3.8 mmol/L", "treat", kLevel1},
    {"reference", GlucoseUnit::mmol_per_l, "3.0 mmol/L", "treat", kLevel2},
    {"reference", GlucoseUnit::mmol_per_l, "2.9 mmol/L", "treat-very-low", kLevel2},
    // A reading is compared in its own unit: 70 mg/dL is 3.885 mmol/L, and not low even on the other family's child.
    {"reference", GlucoseUnit::mmol_per_l, "70 mg/dL", "not-low", kLevel1},
    {"reference", GlucoseUnit::mg_per_dl, "3.8 mmol/L", "treat", kLevel1},
    {"harbour-lane", GlucoseUnit::mg_per_dl, "65 mg/dL", "not-low", kHarbour},
    {"harbour-lane", GlucoseUnit::mg_per_dl, "64 mg/dL", "treat", kHarbour},
    {"harbour-lane", GlucoseUnit::mg_per_dl, "54 mg/dL", "treat", kLevel2},
    {"harbour-lane", GlucoseUnit::mg_per_dl, "53 mg/dL", "treat-very-low", kLevel2},
    {"harbour-lane", GlucoseUnit::mmol_per_l, "3.6 mmol/L", "not-low", kHarbour},
    {"harbour-lane", GlucoseUnit::mmol_per_l, "3.5 mmol/L", "treat", kHarbour},
    {"harbour-lane", GlucoseUnit::mmol_per_l, "2.9 mmol/L", "treat-very-low", kLevel2},
};

}  // namespace

BOOST_AUTO_TEST_SUITE(published_doses)

BOOST_DATA_TEST_CASE(awake_child_with_a_low_gets_the_published_carbohydrate,
                     boost::unit_test::data::make(kSets) * boost::unit_test::data::make(kCarbohydrate), set, row) {
  Night night(child_of(row.child), low_of(set));
  night.answer("awake", "yes")
      .answer("already-given", "no")
      .answer("reading-from", "meter")
      .answer("glucose", "60 mg/dL");
  BOOST_TEST(night.view().step == "treat");
  BOOST_TEST(amount_shown(night.view(), "sugar") == row.answer, row);
}

BOOST_DATA_TEST_CASE(child_who_will_not_wake_gets_the_published_glucagon,
                     boost::unit_test::data::make(kSets) * boost::unit_test::data::make(kGlucagon), set, row) {
  Night night(child_of(row.child), low_of(set));
  night.answer("awake", "no").answer("breathing-normally", "yes").answer("already-given", "no");
  const View view = night.view();
  BOOST_TEST((view.urgency == Urgency::emergency));
  BOOST_TEST(view.step == (std::string(row.answer) == "no dose" ? "no-rescue" : "rescue"), row);
  BOOST_TEST(amount_shown(view, "glucagon") == row.answer, row);
  for (const ShownAction& action : view.actions) BOOST_TEST((action.kind != ActionKind::by_mouth), row);
}

BOOST_DATA_TEST_CASE(reading_is_taken_for_the_published_level_in_its_own_unit, boost::unit_test::data::make(kLevels),
                     row) {
  Child child = mara();
  child.unit = row.unit;
  Night night(child, low_of(row.set));
  night.answer("awake", "yes")
      .answer("already-given", "no")
      .answer("reading-from", "meter")
      .answer("glucose", row.reading);
  BOOST_TEST(night.view().step == row.step, row);
}

BOOST_AUTO_TEST_SUITE_END()
