#include "verify/renamed.hpp"

#include <algorithm>
#include <vector>

#include "verify/counterparts.hpp"

namespace rushlight {
namespace {

/// Those of the other version whose name this version lacks.
std::vector<StepId> steps_of_other_names(const SideBySide& sides, bool of_now) {
  std::vector<StepId> own, others;
  for (std::uint16_t i = 0; i < sides.both.steps.size(); ++i)
    (sides.is_now(StepId{i}) == of_now ? own : others).push_back(StepId{i});
  const auto is_known = [&](StepId other) {
    return std::any_of(own.begin(), own.end(),
                       [&](StepId one) { return sides.both[one].name == sides.both[other].name; });
  };
  others.erase(std::remove_if(others.begin(), others.end(), is_known), others.end());
  return others;
}

}  // namespace

std::optional<StepId> renamed_step(const SideBySide& sides, StepId step) {
  const bool of_now = sides.is_now(step);
  const std::vector<StepId> others = steps_of_other_names(sides, of_now);
  const auto only_one = [&](auto stands_for) -> std::optional<StepId> {
    const auto is_it = [&](StepId other) { return of_now ? stands_for(other, step) : stands_for(step, other); };
    const auto first = std::find_if(others.begin(), others.end(), is_it);
    if (first == others.end() || std::find_if(first + 1, others.end(), is_it) != others.end()) return std::nullopt;
    return *first;
  };
  if (const auto alike = only_one([&](StepId was, StepId now) { return look_alike(sides, was, now); })) return alike;
  const auto has_headline = [&](StepId was, StepId now) {
    return same_words(sides.both, sides.both[was].headline, sides.both[now].headline);
  };
  if (const auto same = only_one(has_headline)) return same;
  return only_one([&](StepId was, StepId now) { return stay_together(sides, was, now); });
}

}  // namespace rushlight
