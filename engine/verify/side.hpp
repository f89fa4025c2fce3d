#pragma once

#include <algorithm>
#include <array>
#include <cstdint>
#include <vector>

// Private to engine/verify: a set of the stretches of one thing.

namespace rushlight {

/// Stretches that lie side by side: from, up to but not including.
struct Run {
  std::uint32_t from, up_to;
  friend bool operator==(const Run&, const Run&) = default;
};

/// Runs in their order. Nearly all sets are one run or two, which take no room elsewhere.
class Runs {
 public:
  const Run* begin() const { return size_ <= kFew ? few_.data() : many_.data(); }
  const Run* end() const { return begin() + size_; }
  Run* begin() { return size_ <= kFew ? few_.data() : many_.data(); }
  Run* end() { return begin() + size_; }
  std::size_t size() const { return size_; }
  bool empty() const { return size_ == 0; }
  const Run& front() const { return *begin(); }
  const Run& back() const { return begin()[size_ - 1]; }
  Run& front() { return *begin(); }

  void clear() { size_ = 0; }
  void push_back(const Run& run) {
    if (size_ < kFew) {
      few_[size_] = run;
    } else {
      if (size_ == kFew) many_.assign(few_.begin(), few_.end());
      many_.resize(size_);
      many_.push_back(run);
    }
    ++size_;
  }
  /// The first ones alone.
  void shorten(std::size_t size) {
    if (size_ > kFew && size <= kFew) std::copy_n(many_.begin(), size, few_.begin());
    size_ = size;
  }
  friend bool operator==(const Runs& a, const Runs& b) { return std::equal(a.begin(), a.end(), b.begin(), b.end()); }

 private:
  static constexpr std::size_t kFew = 2;
  std::size_t size_ = 0;
  std::array<Run, kFew> few_{};
  std::vector<Run> many_;  // all of them, when they are more
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
  const Runs& runs() const { return runs_; }

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

  Runs runs_;  // in their order; between two of them is a place that is not in the set
};

}  // namespace rushlight
