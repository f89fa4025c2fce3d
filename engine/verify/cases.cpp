#include "verify/cases.hpp"

#include <algorithm>

namespace rushlight {
namespace {

using Taken = Diagrams::Choices;

bool has_options(const Protocol& protocol, const Subject& subject) {
  if (subject.kind == Subject::Kind::fact) return !protocol.facts[subject.index].options.empty();
  return subject.kind == Subject::Kind::change || subject.kind == Subject::Kind::done;
}

// Of numbers one run reads best; options come in any order.
std::vector<bool> numbers_of(const Space& space) {
  std::vector<bool> numbers;
  for (const Space::Variable& variable : space.variables())
    numbers.push_back(!has_options(space.protocol(), variable.subject));
  numbers.push_back(false);  // the visit
  return numbers;
}

CaseLimit limit_of(const Protocol& protocol, const Space::Variable& variable, const std::vector<bool>& takes) {
  CaseLimit limit{variable.subject, {}, {}, false};
  for (std::size_t i = 0; i < takes.size(); ++i) {
    const Stretch& stretch = variable.stretches[i];
    if (!takes[i]) continue;
    if (stretch.unknown) {
      limit.cant_tell = true;
    } else if (has_options(protocol, variable.subject)) {
      limit.options.push_back(static_cast<std::uint16_t>(stretch.value));
    } else {
      Interval interval = variable.subject.kind == Subject::Kind::counter
                              ? Interval{stretch.value, stretch.value, true, true}
                              : interval_around(variable.borders, stretch.value);
      // A counter stays at the greatest number it is compared with.
      const bool last = i + 1 == takes.size();
      if (variable.subject.kind == Subject::Kind::counter && last) interval.up_to = std::nullopt;
      if (i > 0 && takes[i - 1] && !limit.intervals.empty()) {
        limit.intervals.back().up_to = interval.up_to;
        limit.intervals.back().with_up_to = interval.with_up_to;
      } else {
        limit.intervals.push_back(interval);
      }
    }
  }
  return limit;
}

}  // namespace

Interval interval_around(const std::vector<std::int64_t>& borders, std::int64_t value) {
  const auto next = std::lower_bound(borders.begin(), borders.end(), value);
  if (next != borders.end() && *next == value) return Interval{value, value, true, true};
  Interval interval{std::nullopt, std::nullopt, false, false};
  if (next != borders.begin()) interval.from = *(next - 1);
  if (next != borders.end()) interval.up_to = *next;
  return interval;
}

std::optional<std::vector<Taken>> regions_of(const Space& space, Diagrams& diagrams, Diagrams::Set set,
                                             Diagrams::Set within, std::size_t most) {
  std::vector<Taken> regions;
  const Diagrams::Set allowed = diagrams.either(set, diagrams.without(Diagrams::kAll, within));
  const std::vector<bool> numbers = numbers_of(space);
  for (Diagrams::Set left = set; left != Diagrams::kNone;) {
    if (regions.size() == most) return std::nullopt;
    regions.push_back(diagrams.box_around(allowed, diagrams.one_of(left), numbers));
    left = diagrams.without(left, diagrams.within(regions.back()));
  }
  return regions;
}

Taken plainest_region_of(const Space& space, Diagrams& diagrams, Diagrams::Set set, Diagrams::Set within) {
  constexpr int kFew = 6;
  const auto named = [](const Taken& region) {
    return std::count_if(region.begin(), region.end(), [](const auto& takes) { return takes.has_value(); });
  };
  const Diagrams::Set allowed = diagrams.either(set, diagrams.without(Diagrams::kAll, within));
  const std::vector<bool> numbers = numbers_of(space);
  Taken plainest;
  for (int i = 0; i < kFew && set != Diagrams::kNone; ++i) {
    Taken region = diagrams.box_around(allowed, diagrams.one_of(set), numbers);
    set = diagrams.without(set, diagrams.within(region));
    if (i == 0 || named(region) < named(plainest)) plainest = std::move(region);
  }
  return plainest;
}

Taken region_around(const Space& space, Diagrams& diagrams, const std::vector<Diagrams::Set>& sets,
                    const std::vector<Diagrams::Set>& within) {
  const std::vector<std::vector<bool>> taken = diagrams.values_in(sets), possible = diagrams.values_in(within);
  Taken region(taken.size());
  for (std::size_t v = 0; v < space.variables().size(); ++v) {
    if (taken[v] != possible[v]) region[v] = taken[v];
  }
  return region;
}

std::vector<Cases> cases_of(const Space& space, const std::vector<Taken>& regions) {
  std::vector<Cases> all;
  for (const Taken& taken : regions) {
    Cases region{space.unit(), {}};
    for (std::size_t v = 0; v < space.variables().size(); ++v) {
      if (taken[v]) region.limits.push_back(limit_of(space.protocol(), space.variables()[v], *taken[v]));
    }
    all.push_back(std::move(region));
  }
  return all;
}

}  // namespace rushlight
