#pragma once

#include <string>

#include "protocol/child.hpp"

namespace rushlight {

/// What a person said is right although it is unusual; it is written beside the value.
struct Confirmed {
  bool weight = false;
  bool total_daily_dose = false;
};

/// The child file as text, keys in a fixed order, two blanks a level, with a line end: child_from_json reads the same
/// child back. What is not known is left out.
std::string json_from_child(const Child& child, Confirmed confirmed = {});

}  // namespace rushlight
