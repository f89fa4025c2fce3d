#pragma once

#include <functional>
#include <vector>

#include "verify/box.hpp"

// Private to engine/verify: what boxes leave over of another.

namespace rushlight {

/// What a search came to: seen to its end, stopped by the visitor, or given up.
enum class Search : std::uint8_t { ended, stopped, gave_up };

/// Boxes that take what they hold, one after the other. All have the same dimensions, at most kMostDimensions.
///
/// What they leave of a box is found by halving. In each part the takers that do not meet it are dropped, and one that
/// holds all of it ends the part. A taker that holds the part in every dimension but one is cut off in that one: after
/// that nothing can be told from it. Otherwise the part is halved in the dimension that most takers tell apart, at the
/// middle one of their borders, so that each half has about half of them. What is left over is exact, whatever the
/// order; only the work depends on it.
class Cover {
 public:
  static constexpr std::size_t kMostDimensions = 64;
  /// How many times a taker may be held against a part, for all that is asked of one cover: about half a second. Beyond
  /// it a search is given up.
  static constexpr std::uint64_t kMostLooks = 100'000'000;

  explicit Cover(Box whole);
  void make_room_for(std::size_t takers);  // that are about to be added
  void add(const Box& taker);              // kept by reference, and its sides must not move; an empty one holds nothing

  /// Calls `visit` with disjoint boxes that together are what the takers leave of `box`; stops when it gives false.
  Search each_left_over(const Box& box, const std::function<bool(const Box&)>& visit);

 private:
  friend class LeftOver;
  using Dimensions = std::uint64_t;  // a bit for each
  struct Side {
    Run hull;
    const Stretches* holes;  // the side itself when it is more than one run
  };
  struct Taker {
    std::uint32_t place;
    Dimensions told_apart;  // those in which it does not hold the whole part
  };

  /// The takers that may meet the box, by the ends of its small sides alone.
  std::vector<Taker> near(const Box& box) const;

  Box whole_;
  std::vector<Side> sides_;  // of all dimensions of the first taker, then of the next
  std::vector<Taker> takers_;
  std::uint32_t added_ = 0;  // those too that hold nothing
  std::uint64_t looks_ = 0;
};

}  // namespace rushlight
