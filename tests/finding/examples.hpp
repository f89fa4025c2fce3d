#pragma once

#include <string>
#include <vector>

#include "finding/finding.hpp"

namespace rushlight::tests {

/// One finding of a kind as it may occur, with the words a nurse reads: the golden table of the house's one voice.
/// An empty remedy means that nothing certain can be said.
struct Example {
  Kind kind;
  std::string id;
  std::string sentence;
  std::string remedy;
};

/// In the order of the kinds; at least one of each.
const std::vector<Example>& examples();

}  // namespace rushlight::tests
