#pragma once

#include <string>
#include <vector>

#include "protocol/examples.hpp"
#include "protocol/examples_draft.hpp"

namespace rushlight {

/// What does not depend on a protocol: names, sources, children with their numbers, times in their order, that each
/// example expects something, and that it is about one of these protocols.
std::vector<Finding> examples_findings(const ExamplesDraft& draft, const std::vector<std::string>& protocols);

/// The examples that begin with this protocol, which is linked with those it can come to; names looked up, numbers
/// read. Absent when one finding is an error. What `examples_findings` tells is not told again.
Read<std::vector<WorkedExample>> worked_examples_of(const ExamplesDraft& draft, const Protocol& whole);

}  // namespace rushlight
