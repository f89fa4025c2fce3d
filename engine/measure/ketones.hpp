#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <variant>

#include "measure/amounts.hpp"

namespace rushlight {

/// Blood ketones as the strip meter showed them: mmol/L, or HI, which is above the meter's range.
class KetoneReading {
 public:
  static KetoneReading reading(BloodKetones value) { return KetoneReading{value}; }
  static KetoneReading hi() { return KetoneReading{std::nullopt}; }
  /// The number shown; empty for HI.
  std::optional<BloodKetones> number() const { return value_; }
  friend bool operator==(const KetoneReading&, const KetoneReading&) = default;

 private:
  explicit KetoneReading(std::optional<BloodKetones> value) : value_(value) {}
  std::optional<BloodKetones> value_;
};

/// -1 below the limit, 0 at it, 1 above it. HI is above every limit.
int compare(const KetoneReading& reading, BloodKetones limit);

/// "1.2 mmol/L", "HI".
std::string text_from_ketones(const KetoneReading& reading);

/// What a value in mg/dL would be in mmol/L, to one place: to ask about, never to change a reading without asking.
/// Source: molar mass of beta-hydroxybutyrate 104.105 g/mol (IUPAC atomic weights), from memory.
Decimal ketones_from_mg_per_dl(Decimal value);

/// Strip meters show numbers up to here and HI above it: 8.0 mmol/L, from memory.
BloodKetones largest_ketones_shown();

enum class KetoneMistake : std::uint8_t {
  not_a_number,       // see number
  unknown_unit,       // a unit that no ketone meter uses
  other_unit_likely,  // in mg/dL, or above 10 in mmol/L (10.8 mmol/L would be 112 mg/dL): ask, never guess
  beyond_meter,       // no strip meter shows this number: HI, or a slip of the finger
};

struct KetoneRefusal {
  KetoneMistake mistake;
  std::optional<NumberMistake> number;
  std::string text;
};

/// Reads what a caregiver typed or an event holds: "1.2", "1.2 mmol/L", "HI" (any case, blanks around).
/// A bare number is in mmol/L, the one unit of blood ketone strips; zero is a reading. LO is no ketone reading.
std::variant<KetoneReading, KetoneRefusal> ketones_from_text(std::string_view text,
                                                             DecimalMark mark = DecimalMark::point);

}  // namespace rushlight
