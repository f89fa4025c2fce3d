#pragma once

#include <string>

#include "protocol/protocol.hpp"

namespace rushlight::planted {

/// Whether the rules of a step decide the same before and after: for every combination of what they read, in both
/// glucose units, for every child and hour. Exact: the rules are decision diagrams, and the watch rules that are surely
/// looked at before them are taken away first. The two protocols differ in the rules of this step and in nothing else.
bool decides_the_same(const Protocol& before, const Protocol& after, const std::string& step);

}  // namespace rushlight::planted
