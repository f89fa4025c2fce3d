#define BOOST_TEST_DYN_LINK
#include "measure/quantity.hpp"

#include <boost/test/data/monomorphic.hpp>
#include <boost/test/data/test_case.hpp>
#include <boost/test/unit_test.hpp>
#include <ostream>
#include <vector>

using namespace rushlight;
namespace data = boost::unit_test::data;

namespace {

struct QuantityRow {
  std::string text;
  std::string read;
};
std::ostream& operator<<(std::ostream& out, const QuantityRow& row) { return out << "\"" << row.text << "\""; }

std::string quantity_read(const std::string& text) {
  const auto quantity = quantity_from_text(text);
  if (const auto* value = std::get_if<Quantity>(&quantity)) return text_from_quantity(*value);
  const auto& mistake = std::get<QuantityMistake>(quantity);
  BOOST_TEST((mistake.kind == QuantityMistake::Kind::number) == mistake.number.has_value());
  switch (mistake.kind) {
    case QuantityMistake::Kind::number:
      return "number refused";
    case QuantityMistake::Kind::missing_unit:
      return "no unit";
    case QuantityMistake::Kind::unknown_unit:
      return "unknown unit " + mistake.unit_text;
  }
  return "?";
}

const std::vector<QuantityRow> kQuantities = {
    {"70 mg/dL", "70 mg/dL"},
    {"70mg/dL", "70 mg/dL"},
    {"70  mg/dL", "70 mg/dL"},
    {"0.3 g/kg", "0.3 g/kg"},
    {"9.6 g/(100.mL)", "9.6 g/(100.mL)"},
    {"2 [iU]", "2 [iU]"},
    {"-5 Cel", "-5 Cel"},
    {"70", "no unit"},
    {"", "number refused"},
    {"mg/dL", "number refused"},
    {"7O mg/dL", "number refused"},
    {"3,9 mmol/L", "number refused"},
    {"070 mg/dL", "number refused"},
    {" 70 mg/dL", "number refused"},
    {"70 mg/dl", "unknown unit mg/dl"},
    {"70 MG/DL", "unknown unit MG/DL"},
    {"70 mg/dL ", "unknown unit mg/dL "},
    {"70 mg / dL", "unknown unit mg / dL"},
    {"15 mins", "unknown unit mins"},
    {"2 U", "unknown unit U"},  // in UCUM a plain U is an enzyme unit, not insulin
    {"7 1", "unknown unit 1"},
    {"70 ", "unknown unit  "},
    {"1e3 g", "number refused"},
    {"70 60 mg/dL", "unknown unit 60 mg/dL"},
};

}  // namespace

BOOST_AUTO_TEST_SUITE(quantity)

BOOST_DATA_TEST_CASE(a_number_needs_one_unit_in_exact_spelling, data::make(kQuantities), row) {
  BOOST_TEST(quantity_read(row.text) == row.read);
}

BOOST_AUTO_TEST_CASE(every_unit_is_written_and_read_back_as_itself) {
  for (int i = 0; i <= static_cast<int>(Unit::one); ++i) {
    const Unit unit = static_cast<Unit>(i);
    BOOST_TEST_CONTEXT(ucum(unit)) {
      BOOST_REQUIRE(unit_from_ucum(ucum(unit)).has_value());
      BOOST_TEST((*unit_from_ucum(ucum(unit)) == unit));
      if (unit == Unit::one) continue;
      const Quantity written{Decimal::of_micros(2'500'000), unit};
      const auto back = quantity_from_text(text_from_quantity(written));
      BOOST_REQUIRE(std::holds_alternative<Quantity>(back));
      BOOST_TEST((std::get<Quantity>(back) == written));
    }
  }
}

BOOST_AUTO_TEST_CASE(a_count_is_written_as_the_bare_number) {
  BOOST_TEST(text_from_quantity(Quantity{Decimal::whole(3), Unit::one}) == "3");
}

BOOST_AUTO_TEST_SUITE_END()
