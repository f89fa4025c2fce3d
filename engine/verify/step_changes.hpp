#pragma once

#include <string>
#include <vector>

#include "verify/compare.hpp"
#include "verify/counterparts.hpp"
#include "verify/in_step.hpp"

// Private to engine/verify: what two steps that a night comes to together show, beside each other.

namespace rushlight {

struct StepChange {
  Difference::Kind kind;
  Difference::Turn turn;
  Together at;
  Diagrams::Set where;
  std::string was, now;                             // empty: nothing
  std::optional<Language> language = std::nullopt;  // of words
};

/// Of everything that may be true when both are entered. What is dosed is not looked at here: `doses` gets the tables
/// that stand for each other.
struct DosePair {
  DoseId was, now;
  std::vector<StepId> used_in;  // of the older version
};
std::vector<StepChange> step_changes(const SideBySide& sides, const Space& space, Diagrams& diagrams,
                                     const InStepPair& pair, std::vector<DosePair>& doses);

}  // namespace rushlight
