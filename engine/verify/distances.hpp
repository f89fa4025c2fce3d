#pragma once

#include <limits>
#include <optional>
#include <vector>

#include "episode/episode.hpp"

// Private to engine/verify: how far it is from a step to where an example is to come.

namespace rushlight {

/// What a way costs, so that the shortest is found first: a step further is a whole one, a deed or a wait on the way
/// little.
inline constexpr int kStepFurther = 10;

/// The least that is still to be walked from each step to the target, over rules, outcomes, passed deadlines and watch
/// rules; visits lead into the other protocol and back. A rule that wants a counter at a number is as far as the rounds
/// that are not counted yet: to a step that counts them, round to it again, and on from there.
class Distances {  // of a protocol that outlives it
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
  using ByStep = std::vector<int>;
  /// The way over a step that counts: `on` from each step to one of them, entered anew, and further to the target;
  /// `round` from one of them to one of them.
  struct Counting {
    ByStep on;
    int round;
  };
  void add(StepId from, StepId to, std::vector<Need> needs);
  /// The least from each step to any of these, each with what is still to walk from there, over at least one way.
  ByStep entering(const std::vector<std::pair<StepId, int>>& steps) const;
  const Counting& counting(CounterId counter) const;

  std::vector<std::vector<Edge>> into_;      // by the step that is come to
  std::vector<int> far_;                     // by step
  std::vector<std::vector<Need>> needs_on_;  // by step: of the shortest way
  const Protocol& protocol_;
  ByStep plain_;
  mutable std::vector<std::optional<Counting>> counting_;  // by counter, made when a way needs it
};

}  // namespace rushlight
