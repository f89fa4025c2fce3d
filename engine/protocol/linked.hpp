#pragma once

#include <memory>
#include <string_view>
#include <vector>

#include "protocol/protocol.hpp"

namespace rushlight {

/// The protocols of a set as one that begins with `first`: a visit or a hand-over is a step further, and the facts of all of
/// them are one child's. Facts and timers of one name are one; everything else stays each file's own. What `first` cannot
/// come to is taken in behind the rest, since what it asks may be told all the same.
///
/// Findings: a protocol that the set does not have; a fact or an action whose name two files give to different things.
/// Each protocol of `set` must have passed its own checks.
Read<Protocol> linked(const std::vector<const Protocol*>& set, std::string_view first);

}  // namespace rushlight
