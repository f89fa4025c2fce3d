#pragma once

#include <string>
#include <vector>

#include "episode/scene.hpp"

namespace rushlight {

/// What the clinic or the dispatcher will ask for, a line each, in this order: the child, the readings with their times,
/// ketones, insulin, drinks, vomiting, and what was done. What nobody knows is said as not known.
std::vector<std::string> for_the_telephone(const Scene& scene, Language language);

}  // namespace rushlight
