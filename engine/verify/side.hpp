#pragma once

#include <cstdint>
#include <vector>

// Private to engine/verify: a set of the stretches of one thing.

namespace rushlight {

/// Stretches that lie side by side: from, up to but not including.
struct Run {
  std::uint32_t from, up_to;
  friend bool operator==(const Run&, const Run&) = default;
};

/// A set of stretches, by their places. Kept as runs, so that its size does not grow with how finely a thing is cut: a
/// rule that compares a number twice is one run.
class Stretches {
 public:
  Stretches() = default;
  static Stretches first(std::size_t count);  // the places 0 up to, not including, count

  bool none() const { return runs_.empty(); }
  bool any() const { return !runs_.empty(); }
  bool test(std::size_t place) const;
  std::size_t first_place() const { return runs_.front().from; }  // of a set that holds any
  const std::vector<Run>& runs() const { return runs_; }

  void set(std::size_t place);
  void reset(std::size_t place);
  void reset() { runs_.clear(); }
  void keep(const Run& run);  // nothing beside it
  void remove(const Stretches& other);
  void remove(const Run& run);
  Stretches& operator&=(const Stretches& other);

  bool meets(const Stretches& other) const;
  bool contains(const Stretches& other) const;
  friend bool operator==(const Stretches&, const Stretches&) = default;

 private:
  void put(std::uint32_t from, std::uint32_t up_to);  // behind all others, not touching the last

  std::vector<Run> runs_;  // in their order; between two of them is a place that is not in the set
};

}  // namespace rushlight
