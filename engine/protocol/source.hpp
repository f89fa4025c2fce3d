#pragma once

#include <string>

#include "finding/finding.hpp"

namespace rushlight {

/// Where a number or a rule comes from.
struct Source {
  std::string name;  // its id in the file
  std::string publisher, year, title, place;
  bool common_practice;
  bool from_memory;
  Where where;
};

/// "ISPAD 2022, Hypoglycaemia in children, table 1"; "common practice, no source"; "... (from memory)".
std::string citation(const Source& source);

}  // namespace rushlight
