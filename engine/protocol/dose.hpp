#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "measure/quantity.hpp"
#include "protocol/condition.hpp"
#include "protocol/text.hpp"

namespace rushlight {

/// One row of a dose table.
struct DoseRow {
  struct Fixed {
    ThresholdId amount;
    std::optional<Text> share;  // what that is of the thing in hand: "half of the vial"
  };
  struct PerKilogram { ThresholdId amount; };
  struct Withheld { Text reason; };
  std::variant<Fixed, PerKilogram, Withheld> cell;
  std::optional<ThresholdId> least, most;
  Conditions when;
  SourceId source;
  Where where;
};

/// A first-match table. No row that matches means the dose is withheld.
struct Dose {
  std::string name;
  Text label;
  Unit unit;
  RoundDirection round;
  ThresholdId to;  // a multiple of this
  std::vector<DoseRow> rows;
  Where where;
};

enum class FoodKind : std::uint8_t { juice, soft_drink, sugar, tablets, gel, honey, other };
std::string_view name_of(FoodKind kind);
std::optional<FoodKind> food_kind_from(std::string_view name);

/// What can stand in when the child's own food is not at hand.
struct Food {
  FoodKind kind;
  Text name;
  Unit unit;  // millilitre or gram
  ThresholdId carbohydrate;  // content
  ThresholdId step;          // portions are whole multiples of this, rounded up
  Conditions when;           // also binds the child's own foods of this kind
  SourceId source;
  Where where;
};

}  // namespace rushlight
