#include <algorithm>

#include "protocol/resolve_parts.hpp"

namespace rushlight {

namespace {

// The lower corners of the cells into which all edges of the bands cut age, weight and clock. Every band holds
// a cell wholly or not at all, so looking at the corners is exact.
struct Corners {
  std::vector<Age> ages{Age::of_months(0)};
  std::vector<BodyWeight> weights{BodyWeight{Decimal{}, kKilogram}};
  std::vector<ClockTime> clocks{ClockTime::of_minutes(0)};
};

template <class Value>
void add(std::vector<Value>& values, const std::optional<Value>& value) {
  if (value && std::find(values.begin(), values.end(), *value) == values.end()) values.push_back(*value);
}

Corners corners_of(const Threshold& threshold) {
  Corners corners;
  for (const Band& band : threshold.bands) {
    add(corners.ages, band.age_from);
    add(corners.ages, band.age_up_to);
    add(corners.weights, band.weight_from);
    add(corners.weights, band.weight_up_to);
    add(corners.clocks, band.clock_from);
    add(corners.clocks, band.clock_up_to);
  }
  std::sort(corners.ages.begin(), corners.ages.end());
  std::sort(corners.weights.begin(), corners.weights.end());
  std::sort(corners.clocks.begin(), corners.clocks.end());
  return corners;
}

template <class Value>
bool between(Value value, const std::optional<Value>& from, const std::optional<Value>& up_to) {
  return (!from || value >= *from) && (!up_to || value < *up_to);
}

bool clock_between(ClockTime time, const Band& band) {
  if (band.clock_from && band.clock_up_to) return within(time, *band.clock_from, *band.clock_up_to);
  return between(time, band.clock_from, band.clock_up_to);
}

std::string example_of(const Corners& corners, Age age, BodyWeight weight, ClockTime clock) {
  std::string text;
  if (corners.ages.size() > 1) text = text_from_age(age);
  if (corners.weights.size() > 1) text += (text.empty() ? "" : ", ") + text_from_quantity(weight.quantity());
  if (corners.clocks.size() > 1) text += (text.empty() ? "" : ", ") + ("at " + text_from_clock_time(clock));
  return text.empty() ? "every child" : text;
}

// "from" at or above "up to" holds nobody: a slip of the pen, told as such.
void refuse_empty(Resolver& resolver, const Threshold& threshold) {
  for (const Band& band : threshold.bands) {
    if (band.age_from && band.age_up_to && *band.age_from >= *band.age_up_to) {
      resolver.error(band.where,
                     OutOfRange{"age-from", text_from_age(*band.age_from), "", text_from_age(*band.age_up_to)});
    }
    if (band.weight_from && band.weight_up_to && *band.weight_from >= *band.weight_up_to) {
      resolver.error(band.where, OutOfRange{"weight-from", text_from_quantity(band.weight_from->quantity()), "",
                                            text_from_quantity(band.weight_up_to->quantity())});
    }
  }
}

}  // namespace

void check_bands(Resolver& resolver, const Threshold& threshold) {
  refuse_empty(resolver, threshold);
  const Corners corners = corners_of(threshold);
  bool gap_told = false;
  // One overlap for each pair of bands at most: the second band of the pair is where it is told.
  std::vector<bool> overlap_told(threshold.bands.size(), false);
  for (const Age age : corners.ages) {
    for (const BodyWeight weight : corners.weights) {
      for (const ClockTime clock : corners.clocks) {
        const Band* first = nullptr;
        for (std::size_t i = 0; i < threshold.bands.size(); ++i) {
          const Band& band = threshold.bands[i];
          if (!between(age, band.age_from, band.age_up_to) || !between(weight, band.weight_from, band.weight_up_to) ||
              !clock_between(clock, band)) {
            continue;
          }
          if (first != nullptr && !overlap_told[i]) {
            overlap_told[i] = true;
            resolver.error(band.where, BandsOverlap{threshold.name, example_of(corners, age, weight, clock)},
                           Because{"another band already holds it", first->where});
          }
          if (first == nullptr) first = &band;
        }
        if (first == nullptr && !gap_told) {
          gap_told = true;
          resolver.error(threshold.where, BandsGap{threshold.name, example_of(corners, age, weight, clock)});
        }
      }
    }
  }
}

}  // namespace rushlight
