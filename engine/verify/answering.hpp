#pragma once

#include <optional>
#include <utility>
#include <vector>

#include "episode/scene.hpp"

// Private to engine/verify: which answers would lead on from where an episode stands.

namespace rushlight {

/// One value for each stretch that the borders of the whole protocol tell apart, "can't tell" last.
std::vector<Value> values_to_tell(const Protocol& protocol, FactId fact, const Context& context, GlucoseUnit unit);

/// The fact a condition reads; empty for a counter, a deed or the clock.
std::optional<FactId> fact_of(const Protocol& protocol, const Condition& condition);

/// Looks for answers to some questions in an episode, everything else staying as it is.
class Answering {
 public:
  /// The episode must outlive neither: it is copied.
  Answering(const Protocol& protocol, const Child& child, const Episode& episode, Instant now,
            std::vector<FactId> questions);
  Answering(const Answering&) = delete;
  Answering& operator=(const Answering&) = delete;

  struct Wanted {
    const Conditions* all;                        // these hold,
    bool everything_known = false;                // nobody says "can't tell",
    std::vector<const Conditions*> not_as_rules;  // of these lists none holds as a rule,
    std::vector<const Conditions*> not_as_watch;  // and of these none as a watch
  };
  /// The first answers found, in the order of the questions; `fixed` is one of them. Empty when there are none, or none
  /// within a few thousand tries.
  std::optional<Answers> find(const Wanted& wanted, const std::optional<std::pair<FactId, Value>>& fixed);

  const std::vector<FactId>& questions() const { return questions_; }
  const std::vector<Value>& values_of(std::size_t question) const { return values_[question]; }

 private:
  struct List {
    const Conditions* conditions;
    Unanswered unanswered;
    std::size_t decided_at;  // how many questions must be answered before it says something certain
  };
  std::size_t decided_at(const Conditions& conditions) const;
  bool descend(std::size_t question);

  const Protocol& protocol_;
  Instant now_;
  std::vector<FactId> questions_;
  std::vector<std::vector<Value>> values_;
  Episode tried_;
  Scene scene_;
  const Wanted* wanted_ = nullptr;
  const std::pair<FactId, Value>* fixed_ = nullptr;
  std::vector<List> unwanted_;
  int tries_ = 0;
};

}  // namespace rushlight
