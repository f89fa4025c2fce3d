#pragma once

#include <vector>

#include "protocol/examples.hpp"
#include "verify/shown.hpp"

namespace rushlight {

/// What came of the examples of one protocol.
struct WorkedExamples {
  std::vector<Finding> findings;  // each expectation that does not come out, where it stands
  std::optional<Shown> shown;     // when all come out
};

/// Walks each example with the engine. Insulin doses are looked at as if the set were approved: whether they are right
/// is what a clinic wants to see before it approves them; for that the protocol is lent, and is as it was when this
/// returns. Pure: an example has no clock but its own.
WorkedExamples walked_examples(Protocol& whole, const std::vector<WorkedExample>& examples);

}  // namespace rushlight
