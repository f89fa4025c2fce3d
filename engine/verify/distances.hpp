#pragma once

#include <limits>
#include <vector>

#include "episode/episode.hpp"

// Private to engine/verify: how far it is from a step to where an example is to come.

namespace rushlight {

/// What a way costs, so that the shortest is found first: a step further is a whole one, a deed or a wait on the way
/// little.
inline constexpr int kStepFurther = 10;

/// The least that is still to be walked from each step to the target, over rules, outcomes, passed deadlines and watch
/// rules; visits lead into the other protocol and back. A rule that wants a counter at a number is as far as that many
/// rounds, less those that were counted already.
class Distances {
 public:
  Distances(const Protocol& protocol, StepId target);
  static constexpr int kNoWay = std::numeric_limits<int>::max() / 4;
  /// From this step, as far as the episode has counted.
  int from(StepId step, const Episode& episode) const;

 private:
  struct Need {
    CounterId counter;
    int number;
  };
  struct Edge {
    std::uint16_t from;
    int cost;
    std::vector<Need> needs;
  };
  void add(StepId from, StepId to, std::vector<Need> needs);

  std::vector<std::vector<Edge>> into_;      // by the step that is come to
  std::vector<int> far_;                     // by step
  std::vector<std::vector<Need>> needs_on_;  // by step: of the shortest way
};

}  // namespace rushlight
