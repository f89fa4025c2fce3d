#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "finding/finding.hpp"
#include "measure/amounts.hpp"
#include "measure/glucose.hpp"
#include "measure/moment.hpp"
#include "protocol/text.hpp"

namespace rushlight {

enum class ThresholdKind : std::uint8_t {
  glucose, ketones, time, count, weight, age, carbohydrate, carbohydrate_per_weight, medicine, content, portion, clock,
  percent, insulin, insulin_per_weight, fluid_per_weight, medicine_per_age, factor,
};

/// The element name of the kind in the file: "carbohydrate-per-weight".
std::string_view name_of(ThresholdKind kind);

/// A threshold's value: each kind has one type of its own, so a time is never compared with a glucose.
using Limit = std::variant<GlucoseLimit, BloodKetones, Duration, int, BodyWeight, Age, Quantity, ClockTime>;

/// What a banded threshold may depend on.
struct Context {
  Age age;
  std::optional<BodyWeight> weight;
  ClockTime clock;
};

/// One band: from, up to but not including; an absent end is open.
struct Band {
  std::optional<Age> age_from, age_up_to;
  std::optional<BodyWeight> weight_from, weight_up_to;
  std::optional<ClockTime> clock_from, clock_up_to;
  Limit value;
  Where where;
};

/// The smallest and the largest value a clinic may choose.
struct Range {
  Limit least, most;
};

/// A number that the clinic may change. One value is one band without ends.
struct Threshold {
  std::string name;
  ThresholdKind kind;
  std::vector<Band> bands;
  std::string least, most;  // as written, for lists and findings
  Text label;
  std::optional<Text> note;
  SourceId source;
  Where where;
  std::optional<Range> range{};
};

/// The band that holds this context, the first when none does.
const Band& band_in(const Threshold& threshold, const Context& context);

/// The value in force for a child at a local clock time. An unknown weight takes the band of the lightest child.
/// A resolved protocol has exactly one band for every context.
inline const Limit& value_in(const Threshold& threshold, const Context& context) {
  return threshold.bands.size() == 1 ? threshold.bands.front().value : band_in(threshold, context).value;
}

/// "70 mg/dL" or "3.9 mmol/L" for a glucose limit by the unit asked for; other kinds in their own unit.
std::string text_from_limit(const Limit& limit, GlucoseUnit unit);

}  // namespace rushlight
