#pragma once

#include <optional>

#include "episode/episode.hpp"
#include "verify/worst_time.hpp"

// Private to engine/verify.

namespace rushlight {

/// A night of a proof, walked by the engine itself.
struct Replay {
  bool came;       // to the last step of the night, over the steps between
  StepId step;     // where it stands, there or elsewhere,
  Duration after;  // and since when, counted from when the episode began
};

/// Walks the night with a child as its first step says, telling in each step what the night tells there and nothing
/// else. With late answers each comes a second before it would be too late. A night that the engine does not follow was
/// too wide a thought of the proof (see Program): it is no example.
Replay replayed(const Protocol& protocol, const std::vector<NightStep>& night, Promptness answers, GlucoseUnit unit);

/// What is told for a stretch of a fact; nothing for what only the child file tells.
std::optional<Value> value_from(const Fact& fact, const Stretch& stretch, GlucoseUnit unit);

}  // namespace rushlight
