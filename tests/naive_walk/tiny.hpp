#pragma once

#include "protocol/protocol.hpp"

namespace rushlight::naive {

/// The family of all tiny protocols: two yes-no questions A and B, two steps and an end. Each step asks nothing, A, or
/// both; has no wait, one that starts on entering, or one that starts after its action (or a second later by itself);
/// and has two rules: all its answers "yes" lead to one of the three steps, everything else to another. A watch on "B
/// is yes" leads to the second step, which handles it, or is not there.
inline constexpr std::size_t kStepShapes = 81;
inline constexpr std::size_t kWatchShapes = 2;
inline constexpr std::size_t kTinyProtocols = kStepShapes * kStepShapes * kWatchShapes;

/// The protocol with this number, from 0 to kTinyProtocols - 1.
Protocol tiny_protocol(std::size_t number);

}  // namespace rushlight::naive
