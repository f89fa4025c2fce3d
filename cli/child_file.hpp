#pragma once

#include <optional>
#include <string>
#include <vector>

#include "finding/finding.hpp"
#include "measure/moment.hpp"
#include "protocol/child.hpp"

namespace rushlight {

/// A child file as it was read: the child is absent when an error is among the findings.
struct ChildFile {
  std::optional<Child> child;
  std::string bytes;
  std::vector<Finding> findings;
};

/// The day for which the file of the invented child is written.
inline constexpr Day kDemoDay{std::chrono::year{2026}, std::chrono::March, std::chrono::day{1}};
/// The invented child that travels inside the program, as of that day: every day in its file moves along, so that the
/// child stays six years old and its weight nine days. A real child's file stands as it is written.
ChildFile demo_child(const Day& on);
ChildFile child_in(const std::string& path);

}  // namespace rushlight
