#pragma once

#include "protocol/side_by_side.hpp"

// Private to engine/verify: which things of two versions stand for each other.

namespace rushlight {

bool same_words(const Protocol& protocol, const Text& one, const Text& other);
/// The same value for every child and hour.
bool same_value(const Protocol& protocol, ThresholdId one, ThresholdId other);

/// The action of the newer step that stands for this one; empty when none does.
std::optional<ActionId> counterpart(const SideBySide& sides, ActionId was, StepId now);

/// The two steps look alike to whoever stands in them: urgency, words, actions, wait.
bool look_alike(const SideBySide& sides, StepId was, StepId now);

/// A night goes on together from the two: one name, or a new name for the same, or nobody can tell them apart.
bool stay_together(const SideBySide& sides, StepId was, StepId now);

/// `step` is one that only its version has, put before `beside`, which both have; its answers alone lead on from it.
bool is_put_in(const SideBySide& sides, StepId step, StepId beside);

}  // namespace rushlight
