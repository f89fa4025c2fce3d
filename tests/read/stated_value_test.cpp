#include "read/stated_value.hpp"

#include <boost/test/data/monomorphic.hpp>
#include <boost/test/data/test_case.hpp>
#include <boost/test/unit_test.hpp>
#include <ostream>

namespace rushlight::tests {

namespace {

using Kind_ = ThresholdKind;
const Where kTyped{"--change", 0, 0, 0};

struct Row {
  ThresholdKind kind;
  const char* stated;
  const char* value;  // of a glucose both numbers with a bar between
  NumberStyle style = NumberStyle::point;
};
std::ostream& operator<<(std::ostream& out, const Row& row) { return out << name_of(row.kind) << " " << row.stated; }

// Pairs of a glucose: 18.0156 mg/dL in one mmol/L, rounded as each unit is printed.
const Row kUnderstood[] = {
    {Kind_::glucose, "66 mg/dL, 3.7 mmol/L", "66|3.7"},
    {Kind_::glucose, "3.7 mmol/L; 66 mg/dL", "66|3.7"},
    {Kind_::glucose, "66mg/dl/3.7mmol/l", "66|3.7"},
    {Kind_::glucose, "66 mg/dL,3,7 mmol/L", "66|3.7"},
    {Kind_::glucose, "  66  mg/dL ", "66|3.7"},
    {Kind_::glucose, "72 mg/dL", "72|4.0"},
    {Kind_::glucose, "3.7 mmol/L", "67|3.7"},
    {Kind_::glucose, "3,9 mmol/L", "70|3.9"},
    {Kind_::glucose, "90 mg/dL, 5.0 mmol/L", "90|5.0"},
    {Kind_::time, "20 min", "20 min"},
    {Kind_::time, "20  min", "20  min"},
    {Kind_::time, "20 minutes", "20 min"},
    {Kind_::time, "1 h 30 min", "90 min"},
    {Kind_::time, "2 horas", "2 h"},
    {Kind_::time, "90 days", "90 d"},
    {Kind_::carbohydrate, "7,5 gramos", "7.5 g"},
    {Kind_::carbohydrate_per_weight, "0,25 g/kg", "0.25 g/kg"},
    {Kind_::carbohydrate_per_weight, "0,125 g/kg", "0.125 g/kg"},  // no thousand begins with a zero
    {Kind_::age, "6 years", "6 a"},
    {Kind_::age, "6 a\xC3\xB1os", "6 a"},
    {Kind_::age, "12 meses", "12 mo"},
    {Kind_::insulin, "0.5 units", "0.5 [iU]"},
    {Kind_::insulin, "0.5 [iU]", "0.5 [iU]"},
    {Kind_::insulin_per_weight, "0.1 unidades/kg", "0.1 [iU]/kg"},
    {Kind_::content, "10 g in 100 mL", "10 g/(100.mL)"},
    {Kind_::content, "82.4 g en 100 g", "82.4 g/(100.g)"},
    {Kind_::medicine, "10 micrograms", "10 ug"},
    {Kind_::medicine_per_age, "10 micrograms a year", "10 ug/a"},
    {Kind_::medicine_per_age, "10 microgramos al a\xC3\xB1o", "10 ug/a"},
    {Kind_::percent, "10%", "10%"},
    {Kind_::percent, "10,5 %", "10.5 %"},
    {Kind_::factor, "1,5", "1.5"},
    {Kind_::count, "3", "3"},
    {Kind_::clock, "22:00", "22:00"},
    {Kind_::clock, "9:30", "09:30"},
    {Kind_::clock, "22:00:00", "22:00"},
    {Kind_::carbohydrate_per_weight, "0.3 g/kg", "0.3 g/kg", NumberStyle::comma},
    {Kind_::portion, "1.000 mL", "1.000 mL"},
    // Left for the reader of protocols, which refuses them.
    {Kind_::time, "20", "20"},
    {Kind_::time, "20 m", "20 m"},
    {Kind_::count, "1O", "1O"},
    {Kind_::clock, "10 pm", "10 pm"},
    {Kind_::clock, "22:30:15", "22:30:15"},
    {Kind_::factor, "1,5,0", "1,5,0"},
};

struct Refused {
  ThresholdKind kind;
  const char* stated;
  const char* id;
  NumberStyle style = NumberStyle::point;
};
std::ostream& operator<<(std::ostream& out, const Refused& row) {
  return out << name_of(row.kind) << " " << row.stated;
}

const Refused kRefused[] = {
    {Kind_::glucose, "7O mg/dL", "bad-number"},
    {Kind_::glucose, "7O", "bad-number"},
    {Kind_::glucose, "6 6 mg/dL", "bad-number"},
    {Kind_::glucose, "66", "missing-unit"},
    {Kind_::glucose, "3.7", "missing-unit"},
    {Kind_::glucose, "66 g", "wrong-unit"},
    {Kind_::glucose, "", "bad-number"},
    {Kind_::glucose, "mg/dL", "bad-number"},
    {Kind_::glucose, "LO", "bad-number"},
    {Kind_::glucose, "66 mg/dL, 70 mg/dL", "repeated-key"},
    {Kind_::glucose, "66 mg/dL and 3.7 mmol/L", "bad-number"},
    {Kind_::glucose, "66 mg/dL, 3.7", "missing-unit"},
    {Kind_::glucose, "1,000 mg/dL", "bad-number"},
    {Kind_::glucose, "1e2 mg/dL", "bad-number"},
    {Kind_::time, "2O min", ""},  // a wrong number that is read whole: the reader of protocols refuses it
    {Kind_::time, "2O", "bad-number"},
    {Kind_::portion, "1,500 mL", "bad-number"},
    {Kind_::portion, "1.500 mL", "bad-number", NumberStyle::comma},
    {Kind_::factor, "1.500", "bad-number", NumberStyle::comma},
};

}  // namespace

BOOST_AUTO_TEST_SUITE(stating_a_number)

BOOST_DATA_TEST_CASE(what_a_person_writes_becomes_what_the_file_holds, boost::unit_test::data::make(kUnderstood), row) {
  const Read<StatedValue> stated = stated_value(row.kind, row.stated, kTyped, row.style);
  for (const Finding& finding : stated.findings) BOOST_ERROR(text_from_finding(finding, {}));
  BOOST_REQUIRE(stated.value);
  const ValueWords& words = stated.value->words;
  BOOST_TEST((row.kind == ThresholdKind::glucose ? words.mg_dl + "|" + words.mmol_l : words.value) == row.value);
}

BOOST_DATA_TEST_CASE(what_could_be_two_things_is_refused, boost::unit_test::data::make(kRefused), row) {
  const Read<StatedValue> stated = stated_value(row.kind, row.stated, kTyped, row.style);
  if (row.id[0] == '\0') {
    BOOST_TEST(stated.value.value().words.value == row.stated);
    return;
  }
  BOOST_TEST(!stated.value.has_value());
  BOOST_REQUIRE(!stated.findings.empty());
  BOOST_TEST(id_of(stated.findings.front().kind) == row.id, text_from_finding(stated.findings.front(), {}));
}

BOOST_AUTO_TEST_CASE(value_of_the_other_unit_is_marked_as_worked_out) {
  const auto proposed = [](const char* text) {
    return stated_value(ThresholdKind::glucose, text, kTyped).value.value().proposed;
  };
  BOOST_TEST((proposed("66 mg/dL") == GlucoseUnit::mmol_per_l));
  BOOST_TEST((proposed("3.7 mmol/L") == GlucoseUnit::mg_per_dl));
  BOOST_TEST((proposed("66 mg/dL, 3.7 mmol/L") == std::nullopt));
}

BOOST_AUTO_TEST_CASE(value_that_is_worked_out_is_the_same_glucose_for_every_number_a_meter_shows) {
  for (int mg = 20; mg <= 600; ++mg) {
    const auto stated = stated_value(ThresholdKind::glucose, std::to_string(mg) + " mg/dL", kTyped).value.value();
    const auto mmol = std::get<Decimal>(decimal_from_text(stated.words.mmol_l));
    BOOST_TEST(agree(GlucoseLimit{Decimal::whole(mg), mmol}), mg);
  }
  for (int tenth = 11; tenth <= 333; ++tenth) {
    const Decimal mmol = Decimal::of_micros(tenth * 100'000);
    const auto stated = stated_value(ThresholdKind::glucose, text_from_decimal(mmol) + " mmol/L", kTyped).value.value();
    BOOST_TEST(agree(GlucoseLimit{std::get<Decimal>(decimal_from_text(stated.words.mg_dl)), mmol}), tenth);
  }
}

BOOST_AUTO_TEST_CASE(number_that_may_be_a_thousand_is_told_in_both_readings) {
  const auto stated = stated_value(ThresholdKind::portion, "1,500 mL", kTyped);
  BOOST_TEST(remedy(stated.findings.at(0).kind) == "write `1.5` or `1500`");
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace rushlight::tests
