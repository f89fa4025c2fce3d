#include "verify/stretches.hpp"

#include <optional>

#include "protocol/words.hpp"

namespace rushlight {

namespace {

constexpr std::int64_t kThousandth = 1'000;  // of micros: no number of a file or a meter has more than three places

// How fine the numbers of a subject are: two borders next to each other have nothing between them.
std::int64_t grain_of(const Protocol& protocol, const Subject& subject) {
  if (subject.kind != Subject::Kind::fact) return 1;
  const FactKind kind = protocol.facts[subject.index].kind;
  const bool decimal =
      kind == FactKind::glucose || kind == FactKind::ketones || kind == FactKind::weight || kind == FactKind::insulin;
  return decimal ? kThousandth : 1;
}

// A round number strictly between two borders, for examples that read well; there is room for a grain at least.
std::int64_t between(std::int64_t low, std::int64_t high, std::int64_t grain) {
  if (grain == 1) return low + 1;
  for (const std::int64_t round : {1'000'000, 100'000, 10'000, 1'000}) {
    const std::int64_t value = (low / round + 1) * round;
    if (value > low && value < high) return value;
  }
  return low + grain;
}

// The nearest round number below a border.
std::int64_t just_below(std::int64_t border, std::int64_t least, std::int64_t grain, std::int64_t round) {
  if (grain == 1) return border - 1;
  const std::int64_t value = (border + round - 1) / round * round - round;
  return value >= least ? value : least;
}

// What the numbers are usually printed in.
std::int64_t round_of(const Fact& fact, GlucoseUnit unit) {
  const bool tenths =
      fact.kind == FactKind::ketones || (fact.kind == FactKind::glucose && unit == GlucoseUnit::mmol_per_l);
  return tenths ? 100'000 : 1'000'000;
}

std::vector<Stretch> places(std::size_t count) {
  std::vector<Stretch> stretches;
  for (std::size_t i = 0; i < count; ++i) stretches.push_back({static_cast<std::int64_t>(i), false});
  return stretches;
}

}  // namespace

// Each border is a stretch of its own, so that "below" and "at most" come apart.
std::vector<Stretch> stretches_of(const Protocol& protocol, const Subject& subject, GlucoseUnit unit, const Room& room,
                                  const std::set<std::int64_t>& borders) {
  if (subject.kind == Subject::Kind::done) return places(2);
  if (subject.kind == Subject::Kind::change) return places(words::kChanges.size());
  const Fact* fact = subject.kind == Subject::Kind::fact ? &protocol.facts[subject.index] : nullptr;
  if (fact != nullptr && !fact->options.empty()) return places(fact->options.size());
  const bool glucose = fact != nullptr && fact->kind == FactKind::glucose;
  const std::int64_t grain = grain_of(protocol, subject);
  const std::int64_t round = fact != nullptr ? round_of(*fact, unit) : 1;
  std::vector<Stretch> stretches;
  const auto add = [&](std::int64_t value) { stretches.push_back(Stretch{value, false}); };
  std::optional<std::int64_t> last;
  for (const std::int64_t border : borders) {
    if (border < room.from || border >= room.up_to) continue;
    if (last) {
      if (*last + grain < border) add(between(*last, border, grain));
    } else if (border > room.from) {
      const std::int64_t below = just_below(border, room.from, grain, round);
      add(glucose && below < meter_range(unit).least.micros() ? kMeterLo : below);
    } else if (glucose) {
      add(kMeterLo);
    }
    add(border);
    last = border;
  }
  if (!last) {
    add(room.from);
  } else if (*last + grain < room.up_to) {
    add(between(*last, room.up_to, grain));
  }
  return stretches;
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
