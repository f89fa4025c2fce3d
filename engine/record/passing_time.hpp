#pragma once

#include "episode/scene.hpp"

namespace rushlight {

/// When something happens next by itself: a wait ends, an alarm that nobody answers is given up, a call moves on. Up to
/// and including `until`; later than the last event. Empty when nothing does.
std::optional<Moment> next_change(const Scene& scene, Moment until);

}  // namespace rushlight
