#include "measure/quantity.hpp"

#include <array>

#include "measure/written.hpp"

namespace rushlight {
namespace {

struct UnitCode {
  Unit unit;
  std::string_view code;
};

// In the order of the enumeration. Source: The Unified Code for Units of Measure (UCUM), case-sensitive codes;
// tests/published/ucum asks an independent UCUM library about each.
constexpr std::array<UnitCode, 25> kUnits = {{
    {Unit::mg_per_dl, "mg/dL"},
    {Unit::mmol_per_l, "mmol/L"},
    {Unit::kilogram, "kg"},
    {Unit::gram, "g"},
    {Unit::milligram, "mg"},
    {Unit::microgram, "ug"},
    {Unit::millilitre, "mL"},
    {Unit::insulin_unit, "[iU]"},
    {Unit::second, "s"},
    {Unit::minute, "min"},
    {Unit::hour, "h"},
    {Unit::day, "d"},
    {Unit::month, "mo"},
    {Unit::year, "a"},
    {Unit::gram_per_kilogram, "g/kg"},
    {Unit::gram_per_100_gram, "g/(100.g)"},
    {Unit::gram_per_100_ml, "g/(100.mL)"},
    {Unit::unit_per_kilogram, "[iU]/kg"},
    {Unit::ml_per_kilogram, "mL/kg"},
    {Unit::microgram_per_year, "ug/a"},
    {Unit::percent, "%"},
    {Unit::unit_per_ml, "[iU]/mL"},
    {Unit::mg_per_ml, "mg/mL"},
    {Unit::celsius, "Cel"},
    {Unit::one, "1"},
}};

constexpr bool in_order() {
  for (std::size_t i = 0; i < kUnits.size(); ++i) {
    if (static_cast<std::size_t>(kUnits[i].unit) != i) return false;
  }
  return static_cast<std::size_t>(Unit::one) + 1 == kUnits.size();
}
static_assert(in_order(), "the table of units follows the enumeration");

}  // namespace

std::string_view ucum(Unit unit) { return kUnits[static_cast<std::size_t>(unit)].code; }

std::optional<Unit> unit_from_ucum(std::string_view code) {
  for (const UnitCode& row : kUnits) {
    if (row.code == code) return row.unit;
  }
  return std::nullopt;
}

std::variant<Quantity, QuantityMistake> quantity_from_text(std::string_view text, DecimalMark mark) {
  using Mistake = QuantityMistake::Kind;
  const Written written = written_from_text(text);
  const auto number = decimal_from_text(written.number, mark);
  if (const auto* wrong = std::get_if<NumberMistake>(&number)) {
    const NumberMistake why = text.empty() || *wrong != NumberMistake::empty ? *wrong : NumberMistake::not_a_number;
    return QuantityMistake{Mistake::number, why, std::string(written.unit)};
  }
  if (written.unit.empty()) return QuantityMistake{Mistake::missing_unit, std::nullopt, {}};
  const std::optional<Unit> unit = unit_from_ucum(written.unit);
  // "7 1" is far more often a 71 torn in two than seven of the unit "1".
  if (!unit || *unit == Unit::one) {
    return QuantityMistake{Mistake::unknown_unit, std::nullopt, std::string(written.unit)};
  }
  return Quantity{*std::get_if<Decimal>(&number), *unit};
}

std::string text_from_quantity(const Quantity& quantity) {
  std::string text = text_from_decimal(quantity.value);
  if (quantity.unit == Unit::one) return text;
  return text.append(" ").append(ucum(quantity.unit));
}

}  // namespace rushlight
