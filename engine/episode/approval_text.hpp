#pragma once

#include <string>

#include "episode/scene.hpp"

namespace rushlight {

/// "Approved by Dr. Rill until 2027-03-01.", or that nobody has approved it, or that the approval is void or over.
std::string approval_text(const Scene& scene, Language language);

/// Approved, in date, and by a key that is trusted here.
bool is_approved_now(const Scene& scene);

}  // namespace rushlight
