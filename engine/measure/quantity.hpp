#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <variant>

#include "measure/decimal.hpp"

namespace rushlight {

/// The units a protocol or a child file may name, each with its UCUM code (quantity.cpp holds the one table).
enum class Unit : std::uint8_t {
  mg_per_dl,           // mg/dL       glucose
  mmol_per_l,          // mmol/L      glucose, blood ketones
  kilogram,            // kg          body weight
  gram,                // g           carbohydrate
  milligram,           // mg          medicine
  microgram,           // ug          medicine
  millilitre,          // mL          drink
  insulin_unit,        // [iU]        insulin
  second,              // s
  minute,              // min
  hour,                // h
  day,                 // d
  month,               // mo
  year,                // a
  gram_per_kilogram,   // g/kg        carbohydrate for each kilogram
  gram_per_100_gram,   // g/(100.g)   carbohydrate content of a food
  gram_per_100_ml,     // g/(100.mL)  carbohydrate content of a drink
  unit_per_kilogram,   // [iU]/kg     insulin for each kilogram
  ml_per_kilogram,     // mL/kg       drink for each kilogram
  microgram_per_year,  // ug/a        medicine for each completed year of age
  percent,             // %           part of the total daily dose
  unit_per_ml,         // [iU]/mL     strength of insulin
  mg_per_ml,           // mg/mL       concentration of a medicine
  celsius,             // Cel
  one,                 // 1           a count; written without a unit
};

std::string_view ucum(Unit unit);
std::optional<Unit> unit_from_ucum(std::string_view code);

/// A number with its unit, for values whose unit the protocol decides (dose cells, food content).
/// Where the trade has one meaning for a value, a type of its own stands instead (glucose.hpp, amounts.hpp).
struct Quantity {
  Decimal value;
  Unit unit;
  friend bool operator==(const Quantity&, const Quantity&) = default;
};

struct QuantityMistake {
  enum class Kind : std::uint8_t { number, missing_unit, unknown_unit } kind;
  std::optional<NumberMistake> number;
  std::string unit_text;
};

/// "70 mg/dL", "0.3 g/kg", "15 min": one number, blanks allowed between, one UCUM unit (exact spelling).
/// A bare number is missing_unit.
std::variant<Quantity, QuantityMistake> quantity_from_text(std::string_view text, DecimalMark mark = DecimalMark::point);

/// "70 mg/dL"; a count is the bare number.
std::string text_from_quantity(const Quantity& quantity);

}  // namespace rushlight
