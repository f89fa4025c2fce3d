#include "verify/regions.hpp"

#include <algorithm>

namespace rushlight {

namespace {

struct Number {
  GlucoseUnit unit;
  std::int64_t operator()(const GlucoseLimit& limit) const { return limit.in(unit).micros(); }
  std::int64_t operator()(BloodKetones ketones) const { return ketones.in(kMillimolePerLitre).micros(); }
  std::int64_t operator()(Duration duration) const { return duration.count(); }
  std::int64_t operator()(int count) const { return count; }
  std::int64_t operator()(BodyWeight weight) const { return weight.in(kKilogram).micros(); }
  std::int64_t operator()(Age age) const { return age.months(); }
  std::int64_t operator()(const Quantity& quantity) const { return quantity.value.micros(); }
  std::int64_t operator()(ClockTime time) const { return time.minutes(); }
};

struct HoldsFor {
  const Protocol& protocol;
  const Stretch& stretch;
  GlucoseUnit unit;
  const Context& context;

  std::int64_t limit(ThresholdId id) const { return number_of(value_in(protocol[id], context), unit); }

  bool operator()(const Compares& test) const {
    if (stretch.unknown) return false;
    const std::int64_t border = limit(test.limit);
    switch (test.comparison) {
      case Comparison::below:
        return stretch.value < border;
      case Comparison::at_least:
        return stretch.value >= border;
      case Comparison::above:
        return stretch.value > border;
      case Comparison::at_most:
        return stretch.value <= border;
    }
    return false;
  }
  bool operator()(const Is& test) const {
    if (stretch.unknown) return (test.options & kUnknownBit) != 0;
    if (protocol[test.fact].options.empty()) return false;
    return (test.options >> stretch.value & 1U) != 0;
  }
  bool operator()(const CountedAtLeast& test) const { return stretch.value >= limit(test.limit); }
  bool operator()(const WasGiven&) const { return stretch.value == 1; }
  bool operator()(const HasChanged& test) const { return (test.changes >> stretch.value & 1U) != 0; }
  bool operator()(const WithinClock& test) const {
    return within(ClockTime::of_minutes(static_cast<int>(stretch.value)),
                  ClockTime::of_minutes(static_cast<int>(limit(test.from))),
                  ClockTime::of_minutes(static_cast<int>(limit(test.up_to))));
  }
};

struct SubjectOf {
  Subject operator()(const Compares& test) const { return {Subject::Kind::fact, test.fact.index}; }
  Subject operator()(const Is& test) const { return {Subject::Kind::fact, test.fact.index}; }
  Subject operator()(const CountedAtLeast& test) const { return {Subject::Kind::counter, test.counter.index}; }
  Subject operator()(const WasGiven& test) const { return {Subject::Kind::done, test.action.index}; }
  Subject operator()(const HasChanged& test) const { return {Subject::Kind::change, test.mark.index}; }
  Subject operator()(const WithinClock&) const { return {Subject::Kind::clock, 0}; }
};

}  // namespace

std::int64_t number_of(const Limit& limit, GlucoseUnit unit) { return std::visit(Number{unit}, limit); }

bool holds(const Protocol& protocol, const Condition& condition, const Stretch& stretch, GlucoseUnit unit,
           const Context& context) {
  return std::visit(HoldsFor{protocol, stretch, unit, context}, condition.test);
}

BorderPlace border_place(std::int64_t border, const Dimension& dimension) {
  const std::vector<Stretch>& stretches = dimension.stretches;
  const bool unknown = !stretches.empty() && stretches.back().unknown;
  const auto end = stretches.end() - (unknown ? 1 : 0);
  const auto at =
      std::partition_point(stretches.begin(), end, [&](const Stretch& stretch) { return stretch.value < border; });
  const auto below = static_cast<std::uint32_t>(at - stretches.begin());
  return {below, below + (at != end && at->value == border ? 1U : 0U),
          static_cast<std::uint32_t>(end - stretches.begin())};
}

Run compared(Comparison comparison, const BorderPlace& place) {
  switch (comparison) {
    case Comparison::below:
      return {0, place.below};
    case Comparison::at_least:
      return {place.below, place.numbers};
    case Comparison::above:
      return {place.not_above, place.numbers};
    case Comparison::at_most:
      return {0, place.not_above};
  }
  return {0, 0};
}

void keep_what_holds(Stretches& side, const Protocol& protocol, const Condition& condition, const Dimension& dimension,
                     GlucoseUnit unit, const Context& context) {
  const std::vector<Stretch>& stretches = dimension.stretches;
  const auto* test = std::get_if<Compares>(&condition.test);
  if (test == nullptr) {
    for (std::size_t i = 0; i < stretches.size(); ++i) {
      if (!holds(protocol, condition, stretches[i], unit, context)) side.reset(i);
    }
    return;
  }
  const std::int64_t border = number_of(value_in(protocol[test->limit], context), unit);
  side.keep(compared(test->comparison, border_place(border, dimension)));
}

Stretches held_by(const Protocol& protocol, const Condition& condition, const Dimension& dimension, GlucoseUnit unit,
                  const Context& context) {
  Stretches held = Stretches::first(dimension.stretches.size());
  keep_what_holds(held, protocol, condition, dimension, unit, context);
  return held;
}

Subject subject_of(const Condition& condition) { return std::visit(SubjectOf{}, condition.test); }

}  // namespace rushlight
