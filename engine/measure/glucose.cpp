#include "measure/glucose.hpp"

#include "measure/written.hpp"

namespace rushlight {
namespace {

// mg/dL in one mmol/L. Source: molar mass of glucose 180.156 g/mol (IUPAC atomic weights); clinical leaflets print 18.
constexpr Decimal kMgPerDlInOneMmolPerL = Decimal::of_micros(18'015'600);
constexpr Decimal kOnePlace = Decimal::of_micros(100'000);

GlucoseUnit other(GlucoseUnit unit) {
  return unit == GlucoseUnit::mg_per_dl ? GlucoseUnit::mmol_per_l : GlucoseUnit::mg_per_dl;
}

bool shown_by_meters(Decimal value, GlucoseUnit unit) {
  const MeterRange range = meter_range(unit);
  return range.least <= value && value <= range.most;
}

// At the keyboard "mg/dl" means what "mg/dL" means: no other unit differs from these two by letter size alone.
std::optional<GlucoseUnit> glucose_unit_from_text(std::string_view text) {
  const std::string small = small_letters(text);
  if (small == "mg/dl") return GlucoseUnit::mg_per_dl;
  if (small == "mmol/l") return GlucoseUnit::mmol_per_l;
  return std::nullopt;
}

}  // namespace

Unit unit_of(GlucoseUnit unit) { return unit == GlucoseUnit::mg_per_dl ? Unit::mg_per_dl : Unit::mmol_per_l; }

bool agree(const GlucoseLimit& limit) {
  return other_value(limit.mg_per_dl, GlucoseUnit::mg_per_dl) == limit.mmol_per_l ||
         other_value(limit.mmol_per_l, GlucoseUnit::mmol_per_l) == limit.mg_per_dl;
}

Decimal other_value(Decimal value, GlucoseUnit given_in) {
  if (given_in == GlucoseUnit::mg_per_dl) {
    return rounded(quotient(value, kMgPerDlInOneMmolPerL), RoundDirection::nearest, kOnePlace);
  }
  return rounded(product(value, kMgPerDlInOneMmolPerL), RoundDirection::nearest, Decimal::whole(1));
}

std::string text_from_glucose(const Glucose& reading) {
  const std::optional<Decimal> number = reading.number();
  if (!number) return reading.mark() == MeterMark::lo ? "LO" : "HI";
  return text_from_quantity(Quantity{*number, unit_of(reading.unit())});
}

MeterRange meter_range(GlucoseUnit unit) {
  if (unit == GlucoseUnit::mg_per_dl) return MeterRange{Decimal::whole(20), Decimal::whole(600)};
  return MeterRange{Decimal::of_micros(1'100'000), Decimal::of_micros(33'300'000)};
}

std::variant<Glucose, GlucoseRefusal> glucose_from_text(std::string_view text, GlucoseUnit usual, DecimalMark mark) {
  text = trimmed(text);
  const std::string small = small_letters(text);
  if (small == "lo") return Glucose::lo(usual);
  if (small == "hi") return Glucose::hi(usual);

  const auto refused = [&](GlucoseMistake mistake, std::optional<NumberMistake> number, GlucoseUnit unit) {
    return GlucoseRefusal{mistake, number, unit, std::string(text)};
  };
  const Written written = written_from_text(text);
  const auto number = decimal_from_text(written.number, mark);
  if (const auto* wrong = std::get_if<NumberMistake>(&number)) {
    const NumberMistake why = text.empty() || *wrong != NumberMistake::empty ? *wrong : NumberMistake::not_a_number;
    return refused(GlucoseMistake::not_a_number, why, usual);
  }
  GlucoseUnit unit = usual;
  if (!written.unit.empty()) {
    // "5 2" is a number torn in two, not five of a unit called "2".
    const bool torn = written.unit.front() >= '0' && written.unit.front() <= '9';
    if (torn) return refused(GlucoseMistake::not_a_number, NumberMistake::not_a_number, usual);
    const std::optional<GlucoseUnit> named = glucose_unit_from_text(written.unit);
    if (!named) return refused(GlucoseMistake::unknown_unit, std::nullopt, usual);
    unit = *named;
  }
  const Decimal value = *std::get_if<Decimal>(&number);
  if (shown_by_meters(value, unit)) return Glucose::reading(value, unit);
  const bool fits_the_other = shown_by_meters(value, other(unit));
  return refused(fits_the_other ? GlucoseMistake::other_unit_likely : GlucoseMistake::beyond_meter, std::nullopt, unit);
}

}  // namespace rushlight
