#pragma once

#include <string>
#include <vector>

#include "cli/told_differences.hpp"

namespace rushlight {

/// "`treat`, Treat here" without the headline; "nothing" where nothing is left.
std::string head_of(const std::string& outcome);

/// What is not told in brief, counted by turn. Of what is calmer every step that was graver is named: from which
/// urgency to which.
class CountedRest {
 public:
  void add(const Difference& difference);
  std::vector<CountedDifferences> counted() const;

 private:
  struct Line {
    Difference::Turn turn;
    std::string about;
    std::vector<std::string> steps;
    std::size_t number;
  };
  std::vector<Line> lines_;
};

}  // namespace rushlight
