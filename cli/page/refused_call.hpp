#pragma once

#include <string>

#include "wire/json_from_finding.hpp"

namespace rushlight {

/// What a page of ours is answered whose call cannot be served: the refusal as JSON.
inline std::string refused_call(const std::string& why) {
  return json_from_refusal({Finding{Severity::error, Where{"the page", 0, 0, 0}, NotReadable{why}, {}}});
}

}  // namespace rushlight
