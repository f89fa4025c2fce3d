#pragma once

#include <optional>
#include <string>
#include <vector>

#include "finding/finding.hpp"
#include "protocol/child.hpp"

namespace rushlight {

/// A child file as it was read: the child is absent when an error is among the findings.
struct ChildFile {
  std::optional<Child> child;
  std::string bytes;
  std::vector<Finding> findings;
};

/// The invented child that travels inside the program.
ChildFile demo_child();
ChildFile child_in(const std::string& path);

}  // namespace rushlight
