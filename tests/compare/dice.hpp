#pragma once

#include <cstdint>
#include <random>
#include <vector>

namespace rushlight::tests {

/// Draws that are the same with every library.
class Dice {
 public:
  explicit Dice(std::uint64_t seed) : engine_(seed) {}
  std::size_t below(std::size_t n) { return n == 0 ? 0 : static_cast<std::size_t>(engine_() % n); }
  bool chance(int percent) { return below(100) < static_cast<std::size_t>(percent); }
  template <class List>
  auto& one_of(List& list) {
    return list[below(list.size())];
  }

 private:
  std::mt19937_64 engine_;
};

}  // namespace rushlight::tests
