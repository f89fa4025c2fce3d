#pragma once

#include <cstdint>
#include <vector>

#include "verify/box.hpp"

// Private to engine/verify: a quick look for what a box holds and none before it.

namespace rushlight {

/// Boxes one after the other, and of each place in each dimension the set of those that hold it. A point is chosen
/// dimension by dimension: the place at which fewest boxes are left that hold all that was chosen. A set is a row of
/// bits, so that sixty-four boxes are looked at at once.
class BoxesByPlace {
 public:
  BoxesByPlace(const Box& whole, const std::vector<Box>& boxes);  // the boxes are kept by reference

  /// Whether a short look finds a point of this box that none before it holds. There may be one all the same.
  bool finds_point_before_others(std::size_t box) const;

 private:
  using Set = std::vector<std::uint64_t>;
  struct Places {
    std::vector<std::uint32_t> row_of;  // of each place; side by side are often many that the same boxes hold
    std::vector<Set> rows;
  };
  struct Order {
    std::vector<std::size_t> dimensions;
    std::vector<Set> staying;  // behind each of them: the boxes that no later one tells apart from the whole
  };

  Places places_of(std::size_t dimension, std::size_t count) const;
  Order order_of(const Box& whole, bool backwards) const;
  bool finds_point(std::size_t box, const Order& order) const;

  const std::vector<Box>& boxes_;
  std::size_t words_;
  std::vector<Places> places_;  // of each dimension
  Order forwards_, backwards_;
};

}  // namespace rushlight
