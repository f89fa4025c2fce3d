#pragma once

#include <string>
#include <vector>

#include "cli/number_changes.hpp"

namespace rushlight {

/// What became of a call that changes numbers.
struct ChangeReport {
  bool written = false;
  std::vector<NumberChange> changes;
  std::vector<std::string> undo;            // the words behind `--change`
  std::vector<std::string> approvals_void;  // files whose approval was for other bytes
  std::vector<Finding> findings;            // of the change, and of the set with it
};

/// One JSON document.
std::string json_from_changes(const NumbersSet& set, const ChangeReport& report);

}  // namespace rushlight
