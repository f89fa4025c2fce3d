#pragma once

#include <array>
#include <random>
#include <vector>

#include "protocol/protocol.hpp"

namespace rushlight::tests {

/// Random small tables over everything a condition can read. The same numbers on every machine: only the engine's own
/// bits are used, because the distributions of the library differ.
class RandomTables {
 public:
  explicit RandomTables(unsigned seed) : random_(seed) {}
  /// A protocol of one step; each table beside two subjects of which its combinations can be tried one by one.
  Protocol next();

 private:
  std::uint64_t below(std::uint64_t end) { return random_() % end; }
  void add(ThresholdKind kind, Limit value);
  Limit glucose();
  void split(Threshold& threshold);
  void add_thresholds();
  Condition condition();
  Rule rule(bool last);

  std::mt19937 random_;
  Protocol protocol_{};
  std::vector<FactId> facts_;
  std::array<std::uint64_t, 2> beside_{};
};

}  // namespace rushlight::tests
