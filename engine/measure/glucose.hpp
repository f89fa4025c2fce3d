#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <variant>

#include "measure/quantity.hpp"

namespace rushlight {

/// The two unit families in which meters show glucose. Nothing in the house converts a reading between them:
/// published pairs are rounded, and converting first would move a border (70 mg/dL is 3.886 mmol/L,
/// which is "below 3.9" although 70 is not "below 70").
enum class GlucoseUnit : std::uint8_t { mg_per_dl, mmol_per_l };

Unit unit_of(GlucoseUnit unit);

/// What a meter shows instead of a number when the glucose is beyond its range.
enum class MeterMark : std::uint8_t { lo, hi };

/// A reading as the meter showed it: a number in the unit it was taken in, or LO or HI.
class Glucose {
 public:
  static Glucose reading(Decimal value, GlucoseUnit unit) { return Glucose{value, unit, std::nullopt}; }
  static Glucose lo(GlucoseUnit unit) { return Glucose{Decimal{}, unit, MeterMark::lo}; }
  static Glucose hi(GlucoseUnit unit) { return Glucose{Decimal{}, unit, MeterMark::hi}; }
  GlucoseUnit unit() const { return unit_; }
  std::optional<MeterMark> mark() const { return mark_; }
  /// The number shown, in the reading's own unit; empty for LO and HI.
  std::optional<Decimal> number() const { return mark_ ? std::nullopt : std::optional<Decimal>{value_}; }
  friend bool operator==(const Glucose&, const Glucose&) = default;
  friend int compare(const Glucose& reading, const struct GlucoseLimit& limit);

 private:
  Glucose(Decimal value, GlucoseUnit unit, std::optional<MeterMark> mark) : value_(value), unit_(unit), mark_(mark) {}
  Decimal value_;
  GlucoseUnit unit_;
  std::optional<MeterMark> mark_;
};

/// A border for glucose: the same border as it is published in each unit family.
struct GlucoseLimit {
  Decimal mg_per_dl;
  Decimal mmol_per_l;
  friend bool operator==(const GlucoseLimit&, const GlucoseLimit&) = default;
  Decimal in(GlucoseUnit unit) const { return unit == GlucoseUnit::mg_per_dl ? mg_per_dl : mmol_per_l; }
};

/// -1 below the limit, 0 at it, 1 above it, in the unit of the reading. LO is below and HI above every limit.
inline int compare(const Glucose& reading, const GlucoseLimit& limit) {
  if (reading.mark_) return *reading.mark_ == MeterMark::lo ? -1 : 1;
  const Decimal border = limit.in(reading.unit_);
  return reading.value_ < border ? -1 : (reading.value_ == border ? 0 : 1);
}

/// True when the two values of a limit are one border at their printed precision: mg/dL divided by 18.0156
/// and rounded to one place equals the mmol/L value, or mmol/L times 18.0156 rounded to a whole equals the mg/dL value.
/// Source: glucose molar mass 180.156 g/mol (IUPAC atomic weights); from memory; the published pairs are in tests/measure.
bool agree(const GlucoseLimit& limit);

/// The value the other unit family would print for this one (mmol/L to one place, mg/dL whole), for proposals in findings.
Decimal other_value(Decimal value, GlucoseUnit given_in);

/// "52 mg/dL", "2.9 mmol/L", "LO", "HI".
std::string text_from_glucose(const Glucose& reading);

/// The range in which home meters show a number: 20 to 600 mg/dL, 1.1 to 33.3 mmol/L.
/// Source: NHS Tayside sick-day page ("HI" is above 33 mmol/L, 600 mg/dL); the lower end is from memory.
struct MeterRange {
  Decimal least;
  Decimal most;
};
MeterRange meter_range(GlucoseUnit unit);

enum class GlucoseMistake : std::uint8_t {
  not_a_number,        // see number
  unknown_unit,        // a unit that no meter uses
  other_unit_likely,   // "4.2" from a child whose meter shows mg/dL, "110" from one in mmol/L, or "4.2 mg/dL": ask, never guess
  beyond_meter,        // no meter shows this number in this unit: LO or HI, or a slip of the finger
};

struct GlucoseRefusal {
  GlucoseMistake mistake;
  std::optional<NumberMistake> number;
  GlucoseUnit unit;      // the unit the text was taken in
  std::string text;
};

/// Reads what a caregiver typed or an event holds: "52", "52 mg/dL", "3.9 mmol/L", "LO", "HI" (any case, blanks around).
/// A value without a unit is in `usual` only if it is plausible there (within the meter range);
/// when it would be plausible only in the other family the refusal says other_unit_likely.
std::variant<Glucose, GlucoseRefusal> glucose_from_text(std::string_view text, GlucoseUnit usual,
                                                        DecimalMark mark = DecimalMark::point);

}  // namespace rushlight
