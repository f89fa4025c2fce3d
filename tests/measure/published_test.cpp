#define BOOST_TEST_DYN_LINK
#include <boost/test/data/monomorphic.hpp>
#include <boost/test/data/test_case.hpp>
#include <boost/test/unit_test.hpp>
#include <ostream>
#include <vector>

#include "measure/amounts.hpp"
#include "measure/glucose.hpp"
#include "measure/ketones.hpp"

// What others have printed about units, against what the house computes. Each row names who printed it.

using namespace rushlight;
namespace data = boost::unit_test::data;

namespace {

Decimal number(const std::string& text) { return std::get<Decimal>(decimal_from_text(text)); }

struct Pair {
  std::string source;
  std::string mg_per_dl;
  std::string mmol_per_l;
};
std::ostream& operator<<(std::ostream& out, const Pair& pair) {
  return out << pair.source << ": " << pair.mg_per_dl << " mg/dL, " << pair.mmol_per_l << " mmol/L";
}

// All lie within rounding of 180.156 g/mol. The rows marked "arithmetic only" come from pages of little authority: they
// check the sum, they are no evidence for a threshold.
const std::vector<Pair> kPrintedAlike = {
    {"ADA, table of hypoglycaemia levels, level 1", "70", "3.9"},
    {"ADA, table of hypoglycaemia levels, level 2", "54", "3.0"},
    {"a diabetes question page (arithmetic only)", "240", "13.3"},
    {"German diabetes association page (arithmetic only)", "250", "13.9"},
    {"an encyclopaedia page (arithmetic only)", "300", "16.7"},
    {"a German case report (arithmetic only)", "350", "19.4"},
    {"HL7 CGM guide, sample observations 99504-3 and 105272-9", "120", "6.7"},
    {"a public family page on diabetes", "400", "22.2"},
    {"a public family page on diabetes", "150", "8.3"},
    {"a public family page on diabetes", "125", "6.9"},
    {"a public family page on diabetes", "80", "4.4"},
    {"a public family page on diabetes", "75", "4.2"},
    {"a public family page on diabetes", "50", "2.8"},
};

const std::vector<Pair> kPrintedApart = {
    {"a public family page on diabetes, an answer of 2003: 5.6 is right", "100", "5.7"},
    {"printed as a border by some clinics: 5.6 is the same glucose", "100", "5.5"},
    {"the factor 18 where 180.156 gives 22.2", "400", "22.3"},
    {"a slip of the finger", "70", "39"},
};

struct Ketones {
  std::string source;
  std::string mg_per_dl;
  std::string mmol_per_l;
};
std::ostream& operator<<(std::ostream& out, const Ketones& row) {
  return out << row.source << ": " << row.mg_per_dl << " mg/dL, " << row.mmol_per_l << " mmol/L";
}

const std::vector<Ketones> kBetaHydroxybutyrate = {
    {"molar mass 104.105 g/mol (IUPAC atomic weights)", "31.23", "3"},
    {"molar mass 104.105 g/mol (IUPAC atomic weights)", "15.62", "1.5"},
    {"molar mass 104.105 g/mol (IUPAC atomic weights)", "6.25", "0.6"},
    {"1 mmol/L is 10.41 mg/dL", "10.41", "1"},
    {"a reading of 112 mg/dL is 10.8 mmol/L", "112", "10.8"},
};

struct Pounds {
  std::string source;
  std::string pounds;
  std::string kilograms;  // whole, as printed
};
std::ostream& operator<<(std::ostream& out, const Pounds& row) {
  return out << row.source << ": " << row.pounds << " lb, " << row.kilograms << " kg";
}

const std::vector<Pounds> kPounds = {
    {"Nova Scotia clinic guide", "44", "20"},
    {"BC Children's Hospital guide", "33", "15"},
    {"BC Children's Hospital guide", "66", "30"},
};

}  // namespace

BOOST_AUTO_TEST_SUITE(published)

BOOST_DATA_TEST_CASE(two_values_printed_for_one_glucose_agree, data::make(kPrintedAlike), pair) {
  const GlucoseLimit limit{number(pair.mg_per_dl), number(pair.mmol_per_l)};
  BOOST_TEST(agree(limit));
  BOOST_TEST((other_value(limit.mg_per_dl, GlucoseUnit::mg_per_dl) == limit.mmol_per_l));
}

BOOST_DATA_TEST_CASE(two_values_printed_for_two_glucoses_do_not_agree, data::make(kPrintedApart), pair) {
  BOOST_TEST(!agree(GlucoseLimit{number(pair.mg_per_dl), number(pair.mmol_per_l)}));
}

BOOST_AUTO_TEST_CASE(a_pair_agrees_when_either_value_rounds_to_the_other) {
  BOOST_TEST(agree(GlucoseLimit{number("99"), number("5.5")}));   // 99 is 5.495
  BOOST_TEST(agree(GlucoseLimit{number("101"), number("5.6")}));  // 101 is 5.606
  BOOST_TEST(agree(GlucoseLimit{number("252"), number("14")}));   // 252 is 13.988
  BOOST_TEST(!agree(GlucoseLimit{number("102"), number("5.6")}));
}

// Molar mass of glucose 180.156 g/mol: 1 mmol/L is 18.016 mg/dL; 18.0182 in some software, 18 in leaflets.
BOOST_AUTO_TEST_CASE(the_glucose_factor_is_18_0156) {
  BOOST_TEST(text_from_decimal(other_value(number("1000"), GlucoseUnit::mmol_per_l)) == "18016");
  BOOST_TEST(text_from_decimal(other_value(number("10000"), GlucoseUnit::mmol_per_l)) == "180156");
}

// Arithmetic: 70 mg/dL is 3.885 mmol/L and 54 mg/dL is 2.997 mmol/L, so converting before comparing would move the
// border.
BOOST_AUTO_TEST_CASE(a_reading_of_70_or_54_mg_per_dl_is_not_below_its_border) {
  const GlucoseLimit low{number("70"), number("3.9")};
  const GlucoseLimit very_low{number("54"), number("3")};
  BOOST_TEST(compare(Glucose::reading(number("70"), GlucoseUnit::mg_per_dl), low) == 0);
  BOOST_TEST(compare(Glucose::reading(number("3.885"), GlucoseUnit::mmol_per_l), low) == -1);
  BOOST_TEST(compare(Glucose::reading(number("54"), GlucoseUnit::mg_per_dl), very_low) == 0);
  BOOST_TEST(compare(Glucose::reading(number("2.997"), GlucoseUnit::mmol_per_l), very_low) == -1);
}

BOOST_DATA_TEST_CASE(ketones_in_mg_per_dl_are_proposed_in_mmol_per_l, data::make(kBetaHydroxybutyrate), row) {
  BOOST_TEST(text_from_decimal(ketones_from_mg_per_dl(number(row.mg_per_dl))) == row.mmol_per_l);
}

// A public page prints 0.6, 1.5 and 3.0 mmol/L as 10.81, 27.03 and 54.05 mg/dL: that is the glucose factor, and wrong.
BOOST_AUTO_TEST_CASE(ketones_do_not_take_the_factor_of_glucose) {
  BOOST_TEST(text_from_decimal(ketones_from_mg_per_dl(number("10.81"))) == "1");
  BOOST_TEST(text_from_decimal(ketones_from_mg_per_dl(number("27.03"))) == "2.6");
  BOOST_TEST(text_from_decimal(ketones_from_mg_per_dl(number("54.05"))) == "5.2");
}

// Acetoacetic acid 102.089 g/mol, 1 mmol/L is 10.209 mg/dL; a unit page prints these quotients to three places.
BOOST_AUTO_TEST_CASE(the_printed_acetoacetate_table_is_a_plain_quotient) {
  const std::vector<std::pair<std::string, std::string>> rows = {
      {"5", "0.49"}, {"15", "1.469"}, {"40", "3.918"}, {"80", "7.836"}, {"100", "9.795"}};
  for (const auto& [mg_per_dl, mmol_per_l] : rows) {
    const Decimal exact = quotient(number(mg_per_dl), Decimal::of_micros(10'208'900));
    const Decimal shown = rounded(exact, RoundDirection::nearest, Decimal::of_micros(1'000));
    BOOST_TEST(text_from_decimal(shown) == mmol_per_l);
  }
}

BOOST_DATA_TEST_CASE(a_printed_weight_in_pounds_is_the_printed_weight_in_kilograms, data::make(kPounds), row) {
  const Decimal kilograms = weight_from_pounds(number(row.pounds)).in(kKilogram);
  BOOST_TEST(text_from_decimal(rounded(kilograms, RoundDirection::nearest, Decimal::whole(1))) == row.kilograms);
}

// 1 lb is 0.45359237 kg exactly.
BOOST_AUTO_TEST_CASE(a_thousand_pounds_are_453_6_kilograms) {
  BOOST_TEST(text_from_decimal(weight_from_pounds(number("1000")).in(kKilogram)) == "453.6");
  BOOST_TEST(text_from_decimal(weight_from_pounds(number("100000")).in(kKilogram)) == "45359.2");
}

BOOST_AUTO_TEST_SUITE_END()
