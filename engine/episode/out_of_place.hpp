#pragma once

#include <optional>

#include "episode/episode.hpp"
#include "episode/event.hpp"

namespace rushlight {

/// The first deed told of an action that the step does not show at that moment and that has no time of its own: most
/// likely a slip. folded() would keep it as given all the same; who reads events from outside asks first. Empty when
/// all fit.
std::optional<ActionId> deed_out_of_place(const Protocol& protocol, const Child& child, const Episode& episode,
                                          const Event& event);

}  // namespace rushlight
