#include "verify/crossings.hpp"

#include "verify/contexts.hpp"
#include "verify/regions.hpp"

namespace rushlight {

namespace {

bool is_upper(Comparison comparison) { return comparison == Comparison::below || comparison == Comparison::at_most; }

/// Two thresholds of one fact of which the first is meant to lie below the second.
struct Pair {
  ThresholdId lower, upper;
};

// What a clinic may choose says what is meant: the range of the lower one begins and ends earlier, or does one of the two.
bool is_meant_below(const Threshold& lower, const Threshold& upper) {
  if (!lower.range || !upper.range) return false;
  constexpr GlucoseUnit kAny = GlucoseUnit::mg_per_dl;
  const auto least = number_of(lower.range->least, kAny), other_least = number_of(upper.range->least, kAny);
  const auto most = number_of(lower.range->most, kAny), other_most = number_of(upper.range->most, kAny);
  return least <= other_least && most <= other_most && (least < other_least || most < other_most);
}

std::optional<Crossing> crossing_of(const Protocol& protocol, const Pair& pair) {
  const Threshold& lower = protocol[pair.lower];
  const Threshold& upper = protocol[pair.upper];
  if (pair.lower == pair.upper || !is_meant_below(lower, upper)) return std::nullopt;
  for (const ContextCell& cell : context_cells(protocol, {pair.lower, pair.upper})) {
    for (const GlucoseUnit unit : {GlucoseUnit::mg_per_dl, GlucoseUnit::mmol_per_l}) {
      const Limit& below = value_in(lower, cell.context());
      const Limit& above = value_in(upper, cell.context());
      if (number_of(below, unit) < number_of(above, unit)) continue;
      return Crossing{ThresholdsCrossed{lower.name, text_from_limit(below, unit), upper.name, text_from_limit(above, unit)},
                      band_in(lower, cell.context()).where, band_in(upper, cell.context()).where};
    }
  }
  return std::nullopt;
}

}  // namespace

std::optional<Crossing> crossing_that_silences(const Protocol& protocol, const Conditions& taker, const Conditions& rule) {
  for (const Condition& first : taker) {
    const auto* wide = std::get_if<Compares>(&first.test);
    for (const Condition& second : rule) {
      const auto* narrow = std::get_if<Compares>(&second.test);
      if (wide == nullptr || narrow == nullptr || !(wide->fact == narrow->fact)) continue;
      if (is_upper(wide->comparison) != is_upper(narrow->comparison)) continue;
      const Pair pair = is_upper(wide->comparison) ? Pair{wide->limit, narrow->limit} : Pair{narrow->limit, wide->limit};
      if (auto crossing = crossing_of(protocol, pair)) return crossing;
    }
  }
  return std::nullopt;
}

std::optional<Crossing> crossing_within(const Protocol& protocol, const Conditions& rule) {
  for (const Condition& first : rule) {
    const auto* from = std::get_if<Compares>(&first.test);
    for (const Condition& second : rule) {
      const auto* up_to = std::get_if<Compares>(&second.test);
      if (from == nullptr || up_to == nullptr || !(from->fact == up_to->fact)) continue;
      if (is_upper(from->comparison) || !is_upper(up_to->comparison)) continue;
      if (auto crossing = crossing_of(protocol, Pair{from->limit, up_to->limit})) return crossing;
    }
  }
  return std::nullopt;
}

}  // namespace rushlight
