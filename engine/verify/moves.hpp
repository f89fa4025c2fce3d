#pragma once

#include <optional>
#include <vector>

#include "episode/fold.hpp"

// Private to engine/verify: what may happen next to an episode.

namespace rushlight {

/// One thing that may happen next. Whether it leads where it heads for is the engine's to say.
struct Move {
  Event event;
  int cost;
  std::optional<StepId> heads_for;  // empty: the step it is in
};

/// Everything worth telling next: answers that let each rule of the step match, and for answers that a later step may
/// still use one more of each stretch; each outcome that leads elsewhere; all done; the wait passing, in time and
/// overdue; and each watch rule that something worse would set off. An ended episode has none.
std::vector<Move> moves_from(const Protocol& protocol, const Child& child, const Episode& episode, Moment now);

}  // namespace rushlight
