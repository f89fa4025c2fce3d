#pragma once

#include "protocol/protocol.hpp"

namespace rushlight {

/// Two versions of one protocol in one list each of everything, so that what both read can be told apart once for both.
/// Facts of one name and kind are one, with the answers of both; timers, counters and marks of one name are one; and
/// where a condition asks whether an action was given, an action of the older name stands for both. Everything else of
/// `now` lies behind what `was` has.
struct SideBySide {
  Protocol both;
  StepId now_start{0};
  std::vector<Ask> now_opening;
  // Where the things of `now` begin.
  std::uint16_t now_steps = 0, now_watches = 0, now_actions = 0, now_doses = 0, now_thresholds = 0;

  bool is_now(StepId step) const { return step.index >= now_steps; }
};

SideBySide side_by_side(const Protocol& was, const Protocol& now);

}  // namespace rushlight
