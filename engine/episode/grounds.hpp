#pragma once

#include <vector>

#include "episode/view.hpp"

namespace rushlight {

/// The ground of everything the step says: the rule, watch, outcome or passed deadline that led here with each number it
/// compared, and each dose with each number in its sum.
std::vector<Why> grounds_of(const Scene& scene, const Step& step);

}  // namespace rushlight
