#pragma once

#include "episode/view.hpp"

namespace rushlight {

/// What was told as drunk, and the goal up to now by the protocol's hourly amount. Empty where nothing is counted, or where
/// there is no goal for this child.
std::optional<ShownDrinks> drinks_of(const Scene& scene);

}  // namespace rushlight
