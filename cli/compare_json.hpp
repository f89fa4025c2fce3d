#pragma once

#include <optional>
#include <string>
#include <vector>

#include "verify/compare.hpp"

namespace rushlight {

/// One protocol of two sets; without `both` only one of them has it, or both have it in the same file.
struct Compared {
  std::string protocol;
  std::optional<Differences> both;
  bool only_was = false;
  bool same_file = false;  // in brief; a program is told how much is the same
};

/// What `check` refuses in either version: nobody can walk a draft.
struct DraftErrors {
  std::size_t was, now;
};

/// Every difference with its exact regions: docs/wire-format.md says the words.
std::string json_from_compared(const std::vector<Compared>& all, bool laws_differ, const DraftErrors& errors);

}  // namespace rushlight
