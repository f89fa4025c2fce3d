#include "verify/merged.hpp"

#include <algorithm>

namespace rushlight {

WasAndNow was_and_now(const Difference& difference) {
  return {difference.kind, difference.turn, difference.language, difference.was, difference.now};
}

void join(Difference& to, const Difference& other) {
  to.falls = std::max(to.falls, other.falls);
  to.loss = std::max(to.loss, other.loss);
  for (const Difference::Outcome& outcome : other.outcomes) {
    const auto same = std::find_if(to.outcomes.begin(), to.outcomes.end(),
                                   [&](const Difference::Outcome& each) { return each.words == outcome.words; });
    if (same == to.outcomes.end()) to.outcomes.push_back(outcome);
  }
  for (const Difference::Place& place : other.at) {
    if (std::find(to.at.begin(), to.at.end(), place) == to.at.end()) to.at.push_back(place);
  }
}

void Merged::add(Difference difference) {
  std::vector<std::size_t>& alike = alike_[was_and_now(difference)];
  const auto same = std::find_if(alike.begin(), alike.end(), [&](std::size_t place) {
    return merged_[place].regions == difference.regions && merged_[place].too_many == difference.too_many;
  });
  if (same == alike.end()) {
    alike.push_back(merged_.size());
    merged_.push_back(std::move(difference));
    return;
  }
  join(merged_[*same], difference);
}

}  // namespace rushlight
