#pragma once

#include "protocol/protocol.hpp"

// Rule tables of any size, for the judge and the benchmarks. The same on every machine.

namespace rushlight::tests {

struct Growth {
  std::size_t rules, facts;
  unsigned seed;
  bool hole = false;      // one rule is left out
  bool repeated = false;  // one rule stands there twice
};

/// A room of numbers cut in two again and again: no two rules overlap and nothing is left over.
Protocol nearly_disjoint_table(const Growth& growth);
/// Each rule takes two fifths or more of every number: all overlap, and the later ones are mostly dead.
Protocol wide_table(const Growth& growth);
/// What a clinic's table looks like when it grows: numbers and choices, rules that read as many of them as it takes to
/// be about their share of the cases (four times over in all), and a last rule that takes what is left.
Protocol clinic_table(const Growth& growth);

}  // namespace rushlight::tests
