#include "protocol/threshold.hpp"

namespace rushlight {

namespace {

bool holds(const Band& band, const Context& context) {
  if (band.age_from && context.age < *band.age_from) return false;
  if (band.age_up_to && context.age >= *band.age_up_to) return false;
  // The lightest child is lighter than every edge, so only a band that is open below (or starts at zero) holds it.
  const BodyWeight weight = context.weight.value_or(BodyWeight{Decimal{}, kKilogram});
  if (band.weight_from && weight < *band.weight_from) return false;
  if (band.weight_up_to && weight >= *band.weight_up_to) return false;
  if (band.clock_from && band.clock_up_to) return within(context.clock, *band.clock_from, *band.clock_up_to);
  if (band.clock_from && context.clock < *band.clock_from) return false;
  if (band.clock_up_to && context.clock >= *band.clock_up_to) return false;
  return true;
}

struct LimitText {
  GlucoseUnit unit;
  std::string operator()(const GlucoseLimit& limit) const {
    return text_from_quantity(Quantity{limit.in(unit), unit_of(unit)});
  }
  std::string operator()(BloodKetones ketones) const { return text_from_quantity(ketones.quantity()); }
  std::string operator()(Duration duration) const { return text_from_duration(duration); }
  std::string operator()(int count) const { return std::to_string(count); }
  std::string operator()(BodyWeight weight) const { return text_from_quantity(weight.quantity()); }
  std::string operator()(Age age) const { return text_from_age(age); }
  std::string operator()(const Quantity& quantity) const { return text_from_quantity(quantity); }
  std::string operator()(ClockTime time) const { return text_from_clock_time(time); }
};

}  // namespace

const Band& band_in(const Threshold& threshold, const Context& context) {
  for (const Band& band : threshold.bands) {
    if (holds(band, context)) return band;
  }
  return threshold.bands.front();
}

std::string text_from_limit(const Limit& limit, GlucoseUnit unit) { return std::visit(LimitText{unit}, limit); }

}  // namespace rushlight
