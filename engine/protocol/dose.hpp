#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "measure/quantity.hpp"
#include "protocol/condition.hpp"
#include "protocol/text.hpp"

namespace rushlight {

/// One row of a dose table. A row whose amount cannot be worked out for this child (no weight, no total daily dose, no
/// reading) does not match.
struct DoseRow {
  struct Fixed {
    ThresholdId amount;
    std::optional<Text> share;  // what that is of the thing in hand: "half of the vial"
  };
  /// For each kilogram, or for each one above `over`; `plus` more.
  struct PerKilogram { ThresholdId amount; std::optional<ThresholdId> over, plus; };
  struct PerYear { ThresholdId amount; };              // for each completed year of age
  struct OfDailyDose { ThresholdId percent; };
  /// What brings the glucose down to the target by the child's own correction factor; nothing when it is not above.
  struct Correction { ThresholdId target; std::optional<ThresholdId> times; };
  struct OfDose { DoseId dose; std::optional<ThresholdId> during, times; };  // during: of an hourly amount, what falls into it
  struct LargerOf { DoseId one, other; };              // never the sum
  struct Withheld { Text reason; };
  std::variant<Fixed, PerKilogram, PerYear, OfDailyDose, Correction, OfDose, LargerOf, Withheld> cell;
  std::optional<ThresholdId> least, most;
  std::optional<ThresholdId> most_percent;             // of the total daily dose
  std::optional<ThresholdId> most_per_kg;              // no bound where the weight is not known
  Conditions when;
  SourceId source;
  Where where;
};

/// What an insulin dose must name beside its rows, so that no row can forget it.
struct InsulinLimits {
  ThresholdId no_stacking;  // never within this time of the last rapid-acting insulin
  ThresholdId floor;        // never below this glucose
  ThresholdId fresh;        // never on a reading older than this
};

/// A first-match table. No row that matches means the dose is withheld.
struct Dose {
  std::string name;
  Text label;
  Unit unit;
  RoundDirection round;
  ThresholdId to;  // a multiple of this; of insulin at least the step of the child's own pen or pump
  std::optional<InsulinLimits> insulin;  // of every dose in units of insulin, and of no other
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
