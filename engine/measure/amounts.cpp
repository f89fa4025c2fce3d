#include "measure/amounts.hpp"

#include <array>

namespace rushlight {
namespace {

struct TimeUnit {
  Unit unit;
  std::int64_t seconds;
};

// From the longest, so that the first that divides a duration gives its shortest text.
constexpr std::array<TimeUnit, 4> kTimeUnits = {{
    {Unit::day, 86'400},
    {Unit::hour, 3'600},
    {Unit::minute, 60},
    {Unit::second, 1},
}};

// A thousand years: far beyond every protocol, far below where a sum of two could wrap.
constexpr std::int64_t kMostSeconds = 1'000LL * 366 * 86'400;

constexpr int kMonthsPerYear = 12;
constexpr std::int64_t kMostMonths = 1'000LL * kMonthsPerYear;

}  // namespace

std::optional<Duration> duration_from_quantity(const Quantity& quantity) {
  for (const TimeUnit& row : kTimeUnits) {
    if (row.unit != quantity.unit) continue;
    if (quantity.value < Decimal{}) return std::nullopt;
    if (quantity.value > Decimal::whole(kMostSeconds / row.seconds)) return std::nullopt;
    const Decimal seconds = product(quantity.value, Decimal::whole(row.seconds));
    if (seconds.micros() % Decimal::kMicrosPerOne != 0) return std::nullopt;
    return Duration{seconds.micros() / Decimal::kMicrosPerOne};
  }
  return std::nullopt;
}

std::string text_from_duration(Duration duration) {
  const std::int64_t seconds = duration.count();
  TimeUnit shown = kTimeUnits.back();
  if (seconds != 0) {
    for (const TimeUnit& row : kTimeUnits) {
      if (seconds % row.seconds != 0) continue;
      shown = row;
      break;
    }
  }
  return std::to_string(seconds / shown.seconds).append(" ").append(ucum(shown.unit));
}

Decimal within(Decimal each_hour, Duration time) {
  return quotient(product(each_hour, Decimal::whole(time.count())), Decimal::whole(3600));
}

std::optional<Age> age_from_quantity(const Quantity& quantity) {
  if (quantity.unit != Unit::month && quantity.unit != Unit::year) return std::nullopt;
  const std::int64_t micros = quantity.value.micros();
  if (micros < 0 || micros % Decimal::kMicrosPerOne != 0) return std::nullopt;
  const std::int64_t number = micros / Decimal::kMicrosPerOne;
  if (number > kMostMonths / kMonthsPerYear) return std::nullopt;
  return quantity.unit == Unit::month ? Age::of_months(static_cast<int>(number))
                                      : Age::of_years(static_cast<int>(number));
}

std::string text_from_age(Age age) {
  const bool in_months = age.months() % kMonthsPerYear != 0;
  return text_from_quantity(in_months ? Quantity{Decimal::whole(age.months()), Unit::month}
                                      : Quantity{Decimal::whole(age.completed_years()), Unit::year});
}

BodyWeight weight_from_pounds(Decimal pounds) {
  // 0.45359237, cut to the six places of a Decimal: less than half a gram away at 1000 lb.
  constexpr Decimal kKilogramsInOnePound = Decimal::of_micros(453'592);
  const Decimal kilograms = product(pounds, kKilogramsInOnePound);
  return BodyWeight{rounded(kilograms, RoundDirection::nearest, Decimal::of_micros(100'000)), kKilogram};
}

}  // namespace rushlight
