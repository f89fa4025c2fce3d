#pragma once

#include <string>
#include <vector>

namespace rushlight {

/// A finished file, and what its reader has to know about it.
struct Printed {
  std::string bytes;  // empty: it could not be made
  std::vector<std::string> warnings;
};

}  // namespace rushlight
