#pragma once

#include <map>
#include <string>

#include "dice.hpp"
#include "episode/view.hpp"
#include "said.hpp"

namespace rushlight::tests {

/// Both versions walked by the engine over the same answers, and what `compare` says of each occasion held against it.
struct Judged {
  long cases = 0, apart = 0, content = 0, other_calls = 0, not_followed = 0;
  std::string complaint;  // the first case in which they do not agree
};

void judge(const Protocol& was, const Protocol& now, const Differences& said, Dice& dice, long cases, Judged& judged);

}  // namespace rushlight::tests
