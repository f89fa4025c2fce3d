#include "verify/stretches.hpp"

#include <algorithm>
#include <optional>

#include "measure/ketones.hpp"
#include "protocol/words.hpp"

namespace rushlight {

namespace {

constexpr std::int64_t kOne = Decimal::kMicrosPerOne;
constexpr std::int64_t kTenth = kOne / 10;
constexpr std::int64_t kThousandth = kOne / 1'000;  // no number of a file or a meter has more than three places

// The numbers of a subject as people say them.
struct Scale {
  std::int64_t grain;               // two borders this far from each other have nothing between them
  std::vector<std::int64_t> round;  // steps in which an example is looked for, the roundest first
  std::int64_t below;               // how far below a border an example is looked for
  std::int64_t usual;               // an example where no rule draws a border
  // What a meter shows as a number; what lies outside is LO or HI.
  std::int64_t shown_from = 0;
  std::int64_t shown_up_to = Room{}.up_to;
  bool has_lo = false;
};

Scale scale_of(const Fact& fact, GlucoseUnit unit) {
  const std::vector<std::int64_t> decimals{kOne, kTenth, kOne / 100, kThousandth};
  switch (fact.kind) {
    case FactKind::glucose: {
      const MeterRange range = meter_range(unit);
      const bool mg = unit == GlucoseUnit::mg_per_dl;
      return {kThousandth,         decimals, mg ? kOne : kTenth, (mg ? 100 : 6) * kOne, range.least.micros(),
              range.most.micros(), true};
    }
    case FactKind::ketones:
      return {kThousandth, decimals, kTenth, kOne, 0, largest_ketones_shown().in(kMillimolePerLitre).micros()};
    case FactKind::weight:
    case FactKind::insulin:
      return {kThousandth, decimals, kOne, 20 * kOne};
    case FactKind::age:
      return {1, {12, 1}, 12, 4 * 12};
    case FactKind::time_since:
      return {1, {3600, 60, 1}, 60, 3600};
    case FactKind::choice:
    case FactKind::ordered_choice:
    case FactKind::count:
      break;
  }
  return {1, {1}, 1, 0};
}

// A round number strictly between two borders, for examples that read well; there is room for a grain at least.
std::int64_t between(std::int64_t low, std::int64_t high, const Scale& scale) {
  for (const std::int64_t round : scale.round) {
    const std::int64_t value = (low / round + 1) * round;
    if (value > low && value < high) return value;
  }
  return low + scale.grain;
}

// The nearest round number below a border that a meter can show; there is room for a grain at least.
std::int64_t just_below(std::int64_t border, std::int64_t least, const Scale& scale) {
  std::int64_t value = (border + scale.below - 1) / scale.below * scale.below - scale.below;
  // "11 months" says more of the border at a year than "0".
  if (value <= least) value = std::max(border - scale.grain, least);
  value = std::min(value, scale.shown_up_to);
  return scale.has_lo && value < scale.shown_from ? kMeterLo : value;
}

std::vector<Stretch> places(std::size_t count) {
  std::vector<Stretch> stretches;
  for (std::size_t i = 0; i < count; ++i) stretches.push_back({static_cast<std::int64_t>(i), false});
  return stretches;
}

// Each border is a stretch of its own, so that "below" and "at most" come apart. What no meter shows as a number is not
// there: below its numbers is LO, above them HI.
std::vector<Stretch> number_stretches(const Scale& scale, const Room& room, const std::vector<std::int64_t>& borders) {
  std::vector<Stretch> stretches;
  const auto add = [&](std::int64_t value) { stretches.push_back(Stretch{value, false}); };
  const auto add_between = [&](std::int64_t low, std::int64_t high) {
    low = std::max(low, scale.shown_from - scale.grain);
    high = std::min(high, scale.shown_up_to + scale.grain);
    if (low + scale.grain < high) add(between(low, high, scale));
  };
  std::optional<std::int64_t> last;
  for (const std::int64_t border : borders) {
    if (border < room.from || border >= room.up_to) continue;
    if (last) {
      add_between(*last, border);
    } else if (border > room.from) {
      add(just_below(border, room.from, scale));
    } else if (scale.has_lo) {
      add(kMeterLo);
    }
    if (border >= scale.shown_from && border <= scale.shown_up_to) add(border);
    last = border;
  }
  if (!last) {
    add(scale.usual >= room.from && scale.usual < room.up_to ? scale.usual : room.from);
  } else if (*last + scale.grain < room.up_to) {
    const std::int64_t above = between(std::max(*last, scale.shown_from - scale.grain), room.up_to, scale);
    add(above > scale.shown_up_to ? kMeterHi : above);
  }
  return stretches;
}

}  // namespace

std::vector<Stretch> stretches_of(const Protocol& protocol, const Subject& subject, GlucoseUnit unit, const Room& room,
                                  const std::vector<std::int64_t>& borders) {
  if (subject.kind == Subject::Kind::done) return places(2);
  if (subject.kind == Subject::Kind::change) return places(words::kChanges.size());
  if (subject.kind != Subject::Kind::fact) return number_stretches({1, {1}, 1, 0}, room, borders);
  const Fact& fact = protocol.facts[subject.index];
  if (!fact.options.empty()) return places(fact.options.size());
  return number_stretches(scale_of(fact, unit), room, borders);
}

bool may_be_unknown(const Fact& fact) {
  return !fact.from_child || fact.kind == FactKind::weight || fact.kind == FactKind::insulin;
}

std::vector<ThresholdId> limits_of(const Condition& condition) {
  if (const auto* test = std::get_if<Compares>(&condition.test)) return {test->limit};
  if (const auto* test = std::get_if<CountedAtLeast>(&condition.test)) return {test->limit};
  if (const auto* test = std::get_if<WithinClock>(&condition.test)) return {test->from, test->up_to};
  return {};
}

}  // namespace rushlight
