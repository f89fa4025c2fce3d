#pragma once

#include <string>
#include <vector>

#include "episode/scene.hpp"

namespace rushlight {

/// What to be careful about now, the most particular first; then the clinic's own cautions, then what stands on every face.
std::vector<std::string> cautions_for(const Scene& scene, const Step& step);

}  // namespace rushlight
