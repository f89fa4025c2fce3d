#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "episode/scene.hpp"

namespace rushlight {

/// The rules of one step for one child and clock time, turned on their side: for every fact, which rules each of its
/// values leaves possible, one bit a rule. Choosing is one AND a fact; the lowest bit left is the first match.
/// For callers that choose very often (proofs, timing); a walk asks first_match of scene.hpp, which this must equal.
class RuleTable {
 public:
  static constexpr std::size_t kMostRules = 64;

  /// Empty for a step of more than 64 rules. Thresholds are taken as they stand in `context`.
  static std::optional<RuleTable> of(const Protocol& protocol, const Step& step, const Context& context);

  /// The same as first_match(scene, step), for a scene with the context this was made for.
  std::optional<std::uint16_t> first_match(const Scene& scene) const;

 private:
  /// Values in a row: below the first border, at it, between it and the second, and so on: 2n + 1 places.
  struct Ladder {
    std::vector<std::int64_t> borders;
    std::vector<std::uint64_t> possible;
  };
  struct Column {
    FactId fact;
    std::uint64_t unknown;
    std::vector<std::uint64_t> chosen;  // by option
    Ladder ladder[2];                   // by glucose unit; other kinds use the first
  };
  /// A condition on something else than a fact: which rules it rules out when it does not hold.
  struct Other {
    Condition condition;
    std::uint64_t otherwise_possible;
  };

  static Column column_of(const Protocol& protocol, const Step& step, const Context& context, FactId fact);
  static std::uint64_t possible_in(const Column& column, const Value& value, Duration since_learned);

  std::uint64_t rules_ = 0;
  std::vector<Column> columns_;
  std::vector<Other> others_;
};

}  // namespace rushlight
