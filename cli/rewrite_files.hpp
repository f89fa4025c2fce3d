#pragma once

#include <optional>
#include <string>
#include <vector>

#include "finding/finding.hpp"

namespace rushlight {

/// What a file that is there is to hold from now on.
struct Rewrite {
  std::string path, before,
      bytes;  // `before`: what was read from it; a file that holds something else by now is not touched
};

/// Puts new bytes into several files, each whole or not at all: temporary files beside them, all made durable, then all
/// renamed. When one cannot be renamed, those before it get their old bytes back. Only the plug pulled between two
/// renames leaves some with the old bytes and some with the new. Refuses links, what is no ordinary file, and what may
/// not be written.
std::optional<Finding> rewrite_files(const std::vector<Rewrite>& all);

}  // namespace rushlight
