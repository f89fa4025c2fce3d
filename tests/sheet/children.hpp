#pragma once

#include <random>
#include <string>
#include <vector>

#include "protocol/child.hpp"

namespace rushlight::test {

/// Drawn children: every age, weight known or not, every treatment, unit and rescue medicine, numbers given or not,
/// names of any length. The same seed draws the same children.
class Children {
 public:
  explicit Children(unsigned seed) : dice_(seed) {}
  Child next(const Day& today);

 private:
  int up_to(int most) { return static_cast<int>(dice_() % static_cast<unsigned>(most + 1)); }
  bool once_in(int times) { return up_to(times - 1) == 0; }

  std::mt19937 dice_;
};

/// Names that a page has to bear: long, of one endless word, right to left, of other scripts, with markup and with what
/// a terminal or a page would obey.
const std::vector<std::string>& hard_names();

}  // namespace rushlight::test
