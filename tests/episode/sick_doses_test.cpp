#include <algorithm>
#include <boost/test/data/test_case.hpp>
#include <boost/test/unit_test.hpp>

#include "sick_night.hpp"

using namespace rushlight;
using namespace rushlight::test;
namespace data = boost::unit_test::data;

namespace {

Child with_daily_dose(const char* units) {
  Child child = sick_mara();
  child.total_daily_dose = InsulinDose{std::get<Decimal>(decimal_from_text(units)), kInsulinUnit};
  return child;
}

Child weighing(const char* kilograms) {
  Child child = sick_mara();
  child.weight = BodyWeight{std::get<Decimal>(decimal_from_text(kilograms)), kKilogram};
  return child;
}

Child aged(int years) {
  Child child = sick_mara();
  child.birth = *day_from_text(std::to_string(2026 - years) + "-02-15");  // a fortnight before the night
  return child;
}

int whole(const char* number) {
  return static_cast<int>(std::get<Decimal>(decimal_from_text(number)).micros() / Decimal::kMicrosPerOne);
}

std::string amount(const DoseResult& dose) { return dose.amount ? text_from_quantity(*dose.amount) : dose.working; }

struct Published {
  const char* given;
  const char* expected;
  friend std::ostream& operator<<(std::ostream& out, const Published& row) { return out << row.given; }
};

/// Source: UTMB Pediatrics (30 kg: 40 + 20 + 10 = 70 mL/h); two public explainers (25 kg: 65; 14 kg: 48). The others follow
/// the same rule: 4 mL/kg for the first ten kilograms, 2 for the next ten, 1 above.
const Published kMaintenance[] = {{"1", "4 mL"},   {"5", "20 mL"},  {"10", "40 mL"}, {"14", "48 mL"}, {"20", "60 mL"},
                                  {"25", "65 mL"}, {"30", "70 mL"}, {"50", "90 mL"}, {"70", "110 mL"}};

/// Source: Haymond and Schreiner 2001: 20 micrograms up to two years, 10 for each year above, at most 150.
const Published kMiniDoses[] = {{"0", "20 ug"},  {"1", "20 ug"},   {"2", "20 ug"},   {"3", "30 ug"},   {"4", "40 ug"},
                                {"9", "90 ug"},  {"10", "100 ug"}, {"14", "140 ug"}, {"15", "150 ug"}, {"16", "150 ug"},
                                {"17", "150 ug"}, {"18", "150 ug"}};

/// Ten percent of the daily dose, rounded down to half units. Sources: NHS North West London 2024 (38 units: 3.8, printed as
/// 4, rounded to the nearest whole); the Emed guideline (10 units: 1); Alder Hey (50 units: at most 10 of them, so 5 stand).
const Published kTenPercent[] = {{"38", "3.5 [iU]"}, {"10", "1 [iU]"}, {"50", "5 [iU]"}, {"15", "1.5 [iU]"}, {"20", "2 [iU]"}};

}  // namespace

BOOST_AUTO_TEST_SUITE(sick_day_doses)

BOOST_DATA_TEST_CASE(maintenance_fluid_follows_four_two_one, data::make(kMaintenance)) {
  BOOST_TEST(amount(dose_now(looked("160 mg/dL", "0.2 mmol/L", weighing(sample.given)), "fluid-hour")) == sample.expected);
}

BOOST_AUTO_TEST_CASE(fluid_shows_its_sum) {
  const Night night = looked("160 mg/dL", "0.2 mmol/L", weighing("14"));
  BOOST_TEST(dose_now(night, "fluid-hour").working == "40 mL + 2 mL/kg x 4 kg = 48 mL");
  BOOST_TEST(dose_now(night, "sip").working == "Drink each hour 48 mL x 10 min / 1 h = 8 mL");
}

BOOST_AUTO_TEST_CASE(child_of_unknown_weight_still_drinks) {
  Child child = sick_mara();
  child.weight.reset();
  BOOST_TEST(amount(dose_now(looked("160 mg/dL", "0.2 mmol/L", child), "fluid-hour")) == "50 mL");
}

BOOST_DATA_TEST_CASE(mini_dose_goes_by_completed_years, data::make(kMiniDoses)) {
  const Night night = looked("160 mg/dL", "0.2 mmol/L", aged(whole(sample.given)));
  BOOST_TEST(amount(dose_now(night, "mini-dose")) == sample.expected);
}

BOOST_DATA_TEST_CASE(ketone_dose_is_ten_percent_of_the_daily_dose_rounded_down, data::make(kTenPercent)) {
  BOOST_TEST(amount(dose_now(looked("300 mg/dL", "1.7 mmol/L", with_daily_dose(sample.given)), "ketone-dose")) == sample.expected);
}

BOOST_AUTO_TEST_CASE(ketone_dose_shows_its_sum) {
  const DoseResult dose = dose_now(looked("300 mg/dL", "1.7 mmol/L", with_daily_dose("38")), "ketone-dose");
  BOOST_TEST(dose.working == "10 % x 38 units a day = 3.8 units, down to 3.5 units");
}

// Source: childrenwithdiabetes.com team answer, October 2004: (400 - 150) / 50 = 5 units.
BOOST_AUTO_TEST_CASE(correction_brings_the_glucose_down_to_the_target_by_the_childs_factor) {
  Child child = sick_mara();
  child.correction_factor = CorrectionFactor{Decimal::whole(50), GlucoseUnit::mg_per_dl};
  const DoseResult dose = dose_now(looked("400 mg/dL", "0.2 mmol/L", child), "correction");
  BOOST_TEST(amount(dose) == "5 [iU]");
  BOOST_TEST(dose.working == "(400 mg/dL - 150 mg/dL) / 50 mg/dL for each unit = 5 units");
}

BOOST_AUTO_TEST_CASE(correction_is_multiplied_where_there_are_ketones) {
  Child child = sick_mara();
  child.correction_factor = CorrectionFactor{Decimal::whole(50), GlucoseUnit::mg_per_dl};
  BOOST_TEST(amount(dose_now(looked("400 mg/dL", "1.7 mmol/L", child), "correction")) == "7.5 [iU]");
}

// Source: parent education pages after Alberta Children's Hospital handouts, pump in illness: (22.8 - 7) / 3 x 1.5 = 7.9,
// printed as 8, rounded to the nearest whole; here down to half units.
BOOST_AUTO_TEST_CASE(correction_with_ketones_follows_the_worked_example_for_a_pump_in_illness) {
  Child child = sick_mara();
  child.unit = GlucoseUnit::mmol_per_l;
  child.correction_factor = CorrectionFactor{Decimal::whole(3), GlucoseUnit::mmol_per_l};
  Night night(child, small_set("sick", true, R"(mg-dl="150" mmol-l="8.3" least="100 mg/dL")",
                               R"(mg-dl="126" mmol-l="7.0" least="100 mg/dL")"));
  night.answer("awake", "yes").answer("already-given", "no").answer("glucose", "22.8 mmol/L").answer("ketones", "1.7 mmol/L");
  night.answer("last-rapid-insulin", "none");
  const DoseResult dose = dose_now(night, "correction");
  BOOST_TEST(dose.working == "(22.8 mmol/L - 7 mmol/L) / 3 mmol/L for each unit x 1.5 = 7.9 units, down to 7.5 units");
}

BOOST_AUTO_TEST_CASE(factor_in_the_other_unit_is_never_converted) {
  Child child = sick_mara();
  child.correction_factor = CorrectionFactor{Decimal::of_micros(2'800'000), GlucoseUnit::mmol_per_l};
  BOOST_TEST(!dose_now(looked("400 mg/dL", "0.2 mmol/L", child), "correction").amount.has_value());
}

BOOST_AUTO_TEST_CASE(hi_on_the_meter_gives_the_ketone_dose_but_no_correction) {
  Child child = sick_mara();
  child.correction_factor = CorrectionFactor{Decimal::whole(50), GlucoseUnit::mg_per_dl};
  const Night night = looked("HI", "1.7 mmol/L", child);
  BOOST_TEST(!dose_now(night, "correction").amount.has_value());
  BOOST_TEST(amount(dose_now(night, "extra-insulin")) == "1.5 [iU]");
}

// Source: Children's Hospital of Philadelphia: the larger of ketone dose and correction, not both.
BOOST_AUTO_TEST_CASE(larger_of_ketone_dose_and_correction_counts_and_never_the_sum) {
  Child child = sick_mara();
  child.correction_factor = CorrectionFactor{Decimal::whole(100), GlucoseUnit::mg_per_dl};
  const DoseResult dose = dose_now(looked("300 mg/dL", "1.7 mmol/L", child), "extra-insulin");
  BOOST_TEST(amount(dose) == "2 [iU]");
  BOOST_TEST(dose.working.find("the larger of Ketone dose 1.5 units and Correction 2 units") != std::string::npos, dose.working);
}

// Source: Alder Hey: one ketone correction is at most 20 % of the daily dose.
BOOST_AUTO_TEST_CASE(extra_insulin_is_capped_at_a_part_of_the_daily_dose) {
  Child child = sick_mara();
  child.correction_factor = CorrectionFactor{Decimal::whole(20), GlucoseUnit::mg_per_dl};
  const DoseResult dose = dose_now(looked("500 mg/dL", "1.7 mmol/L", child), "extra-insulin");
  BOOST_TEST(amount(dose) == "3 [iU]", dose.working);  // 20 % of 16 is 3.2
}

BOOST_AUTO_TEST_CASE(insulin_is_rounded_down_to_the_childs_own_pen) {
  Child child = sick_mara();
  child.insulin_step = InsulinDose{Decimal::whole(1), kInsulinUnit};
  BOOST_TEST(amount(dose_now(looked("300 mg/dL", "1.7 mmol/L", child), "ketone-dose")) == "1 [iU]");
  child.insulin_step = InsulinDose{Decimal::of_micros(100'000), kInsulinUnit};  // finer than the protocol's
  const DoseResult dose = dose_now(looked("300 mg/dL", "1.7 mmol/L", child), "ketone-dose");
  BOOST_TEST(amount(dose) == "1.6 [iU]");
  BOOST_TEST(dose.working == "10 % x 16 units a day = 1.6 units");
}

BOOST_AUTO_TEST_CASE(insulin_is_rounded_down_to_the_protocols_step_where_the_child_file_has_none) {
  BOOST_TEST(amount(dose_now(looked("300 mg/dL", "1.7 mmol/L"), "ketone-dose")) == "1.5 [iU]");
}

BOOST_AUTO_TEST_CASE(dose_that_only_a_pump_can_set_says_what_the_pen_gives) {
  Child child = sick_mara();
  child.delivery = Delivery::pump;
  child.insulin_step = InsulinDose{Decimal::of_micros(50'000), kInsulinUnit};
  DoseResult dose = dose_now(looked("300 mg/dL", "1.7 mmol/L", child), "extra-insulin");
  BOOST_TEST(amount(dose) == "1.6 [iU]");
  BOOST_TEST(dose.working == "10 % x 16 units a day = 1.6 units; with a pen in steps of 0.5 units: 1.5 units");
  child.total_daily_dose = InsulinDose{Decimal::whole(4), kInsulinUnit};
  dose = dose_now(looked("300 mg/dL", "1.7 mmol/L", child), "extra-insulin");
  BOOST_TEST(amount(dose) == "0.4 [iU]");
  BOOST_TEST(dose.working ==
             "10 % x 4 units a day = 0.4 units; a pen in steps of 0.5 units cannot give it: call the clinic");
}

BOOST_AUTO_TEST_CASE(less_than_the_smallest_step_is_the_clinics_to_say) {
  const DoseResult dose = dose_now(looked("300 mg/dL", "1.7 mmol/L", with_daily_dose("4")), "ketone-dose");
  BOOST_TEST(amount(dose) ==
             "No insulin dose here: it would be less than the smallest step. Call the clinic for the dose.");
  BOOST_TEST(dose.clinic_decides);
}

BOOST_AUTO_TEST_SUITE_END()

BOOST_AUTO_TEST_SUITE(insulin_withheld_)

namespace {
struct Reason {
  const char* name;
  Child (*child)();
  const char* glucose;
  const char* insulin;
  const char* expected;
  bool call;
  friend std::ostream& operator<<(std::ostream& out, const Reason& row) { return out << row.name; }
};
Child plain() { return sick_mara(); }
Child automatic() { Child c = sick_mara(); c.delivery = Delivery::automatic_pump; return c; }
Child no_daily_dose() { Child c = sick_mara(); c.total_daily_dose.reset(); return c; }
Child undated_daily_dose() { Child c = sick_mara(); c.daily_dose_on.reset(); return c; }
Child old_daily_dose() { Child c = sick_mara(); c.daily_dose_on = *day_from_text("2025-11-30"); return c; }
Child other_strength() { Child c = sick_mara(); c.insulin_strength = Quantity{Decimal::whole(200), Unit::unit_per_ml}; return c; }
Child unknown_strength() { Child c = sick_mara(); c.insulin_strength.reset(); return c; }

const Reason kReasons[] = {
    {"automatic_pump", automatic, "300 mg/dL", "none", "the automatic pump may have given some by itself", true},
    {"no_daily_dose", no_daily_dose, "300 mg/dL", "none", "the total daily dose is not on file", true},
    {"undated_daily_dose", undated_daily_dose, "300 mg/dL", "none", "the total daily dose is not on file", true},
    {"old_daily_dose", old_daily_dose, "300 mg/dL", "none", "the total daily dose on file is too old", true},
    {"other_strength", other_strength, "300 mg/dL", "none", "not 100 units in a millilitre", true},
    {"unknown_strength", unknown_strength, "300 mg/dL", "none", "the strength of the insulin is not on file", true},
    {"last_dose_unknown", plain, "300 mg/dL", "unknown", "nobody knows when the last insulin was", true},
    {"below_the_floor", plain, "179 mg/dL", "none", "below 180 mg/dL", true},
    {"no_reading", plain, "unknown", "none", "without a glucose reading", true},
};
}  // namespace

BOOST_DATA_TEST_CASE(every_reason_is_said_and_the_clinic_gives_the_dose, data::make(kReasons)) {
  const DoseResult dose = dose_now(looked(sample.glucose, "1.7 mmol/L", sample.child(), sample.insulin), "ketone-dose");
  BOOST_TEST(!dose.amount.has_value());
  BOOST_TEST(dose.working.find(sample.expected) != std::string::npos, dose.working);
  BOOST_TEST(dose.clinic_decides == sample.call);
}

BOOST_AUTO_TEST_CASE(protocol_nobody_approved_shows_no_insulin) {
  Night night(sick_mara(), small_set("sick", false));
  night.answer("awake", "yes").answer("already-given", "no").answer("glucose", "300 mg/dL").answer("ketones", "1.7 mmol/L");
  night.answer("last-rapid-insulin", "none");
  const View view = night.view();
  BOOST_TEST(view.step == "insulin");
  BOOST_TEST(view.withheld.size() == 1U);
  BOOST_TEST((view.call.has_value() && view.call->contact == Contact::clinic));
  BOOST_TEST(view.actions.front().text.find("Call the clinic for the dose.") != std::string::npos);
}

BOOST_AUTO_TEST_CASE(all_done_gives_no_insulin_that_was_not_stated) {
  Night night(sick_mara(), small_set("sick", false));
  night.answer("awake", "yes").answer("already-given", "no").answer("glucose", "300 mg/dL").answer("ketones", "1.7 mmol/L");
  night.answer("last-rapid-insulin", "none").done();
  BOOST_TEST(night.view().step == "round");  // the step is done with
  BOOST_TEST(night.view().given.empty());
  const auto last = night.episode().facts[night.protocol().fact_named("last-rapid-insulin")->index];
  BOOST_TEST(std::holds_alternative<NotLately>(last->value));
}

BOOST_AUTO_TEST_CASE(dose_the_clinic_said_by_phone_is_told_by_itself) {
  Night night(sick_mara(), small_set("sick", false));
  night.answer("awake", "yes").answer("already-given", "no").answer("glucose", "300 mg/dL").answer("ketones", "1.7 mmol/L");
  night.answer("last-rapid-insulin", "none").done("give-insulin", Outcome::given);
  BOOST_TEST(night.view().given.size() == 1U);
  const auto last = night.episode().facts[night.protocol().fact_named("last-rapid-insulin")->index];
  BOOST_TEST(std::holds_alternative<Ago>(last->value));
}

BOOST_AUTO_TEST_CASE(approval_that_is_over_shows_no_insulin) {
  Night night = sick_night();
  night.at("2027-01-01T02:10:00-05:00").answer("awake", "yes").answer("already-given", "no").answer("glucose", "300 mg/dL");
  night.answer("ketones", "1.7 mmol/L").answer("last-rapid-insulin", "none");
  BOOST_TEST(!dose_now(night, "ketone-dose").amount.has_value());
}

BOOST_AUTO_TEST_CASE(approval_that_has_not_begun_shows_no_insulin_and_says_when) {
  Night night = sick_night();
  night.at("2025-12-31T02:10:00-05:00").answer("awake", "yes").answer("already-given", "no").answer("glucose", "300 mg/dL");
  night.answer("ketones", "1.7 mmol/L").answer("last-rapid-insulin", "none");
  BOOST_TEST(!dose_now(night, "ketone-dose").amount.has_value());
  const std::vector<std::string> caution = night.view().caution;
  const std::string sentence = "Not approved yet: the approval begins on 2026-01-01. Ask the clinic.";
  BOOST_TEST((std::find(caution.begin(), caution.end(), sentence) != caution.end()));
}

BOOST_AUTO_TEST_CASE(dose_within_the_no_stacking_time_waits_for_its_clock_time) {
  const DoseResult dose = dose_now(looked("300 mg/dL", "1.7 mmol/L", sick_mara(), "90 min"), "ketone-dose");
  BOOST_TEST(dose.working == "No more insulin before 02:40. The last dose still works.");
  BOOST_TEST(!dose.clinic_decides);
}

BOOST_AUTO_TEST_CASE(dose_of_this_night_blocks_the_next_even_after_a_correction_of_the_reading) {
  Night night = looked("300 mg/dL", "1.7 mmol/L");
  night.at("02:12").done("give-insulin", Outcome::given);
  BOOST_TEST(dose_now(night, "ketone-dose").working.find("before 04:12") != std::string::npos);
  night.at("02:13").correct("glucose", "310 mg/dL");
  BOOST_TEST(dose_now(night, "ketone-dose").working.find("before 04:12") != std::string::npos);
  BOOST_TEST(night.view().given.size() == 1U);
}

BOOST_AUTO_TEST_CASE(insulin_written_down_last_night_still_blocks) {
  Night night = sick_night();
  History past;
  past.last_insulin = Night::moment("01:00");
  night.happens(Remembered{past}).answer("awake", "yes").answer("already-given", "no").answer("glucose", "300 mg/dL");
  night.answer("ketones", "1.7 mmol/L").answer("last-rapid-insulin", "none");
  BOOST_TEST(dose_now(night, "ketone-dose").working.find("before 03:00") != std::string::npos);
}

BOOST_AUTO_TEST_CASE(clock_that_goes_back_never_shortens_the_no_stacking_time) {
  Night night = looked("300 mg/dL", "1.7 mmol/L");
  night.at("02:12").done("give-insulin", Outcome::given).at("01:30").answer("glucose", "300 mg/dL").at("02:20").tick();
  BOOST_TEST(!dose_now(night, "ketone-dose").amount.has_value());
}

BOOST_AUTO_TEST_CASE(old_reading_asks_for_a_new_one_before_any_insulin) {
  Night night = looked("300 mg/dL", "0.2 mmol/L");
  night.at("02:45").tick();
  BOOST_TEST(dose_now(night, "ketone-dose").working.find("Measure the glucose again first") == 0U);
}

BOOST_AUTO_TEST_SUITE_END()
