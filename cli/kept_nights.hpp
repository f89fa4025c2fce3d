#pragma once

#include <variant>
#include <vector>

#include "cli/resumed.hpp"

namespace rushlight {

/// The child's episodes as they were kept and walked, the oldest first; or what refuses them.
/// `since`: those that began at or after it; empty: only the last one.
std::variant<std::vector<Resumed>, std::vector<Finding>> kept_nights(const std::string& journal,
                                                                     const std::string& child,
                                                                     std::optional<Instant> since);

}  // namespace rushlight
