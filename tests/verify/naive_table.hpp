#pragma once

#include <set>
#include <string>
#include <vector>

#include "protocol/protocol.hpp"

// The slow, obvious judge of rule tables: it tries every combination of values, each with the meaning of the conditions
// as docs/protocol-format.md words it, and knows nothing of regions.

namespace rushlight::tests {

struct Verdict {
  bool gap_when_all_is_known = false;
  bool gap = false;
  std::set<std::string> gap_when_only_this_is_unknown;  // facts
  std::vector<bool> rule_matches;                       // somewhere, before the watch is looked at
  std::size_t combinations = 0;
};

/// Of the first step of the protocol.
Verdict naive_verdict(const Protocol& protocol);

}  // namespace rushlight::tests
