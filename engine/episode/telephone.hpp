#pragma once

#include <string>
#include <vector>

#include "episode/scene.hpp"

namespace rushlight {

/// What the clinic or the dispatcher will ask for, a line each, in this order: type 1 diabetes and why somebody calls; the
/// child, weight and usual treatment; the readings with their times, ketones, insulin, drinks, vomiting, what was done and
/// how it went; then the answers about the child. What nobody was asked is not the same as what nobody knows.
std::vector<std::string> for_the_telephone(const Scene& scene, Language language);

}  // namespace rushlight
