#pragma once

#include <optional>
#include <string>
#include <vector>

#include "protocol/protocol.hpp"
#include "verify/cases.hpp"

// Rule tables as SMT-LIB text, for a solver to judge them: made from the conditions and thresholds of the model, each
// with the meaning docs/protocol-format.md words, and without any notion of stretches or boxes.

namespace rushlight::tests {

struct SmtTable {
  std::string names;               // declarations, to go before whatever is read with them
  std::string facts;               // assertions: what can be answered
  std::string watched;             // when a watch takes it before every rule
  std::vector<std::string> rules;  // when each rule or row holds, whatever stands before it
};

SmtTable smt_of(const Protocol& protocol, const Step& step);
SmtTable smt_of(const Protocol& protocol, const Dose& dose);

/// A printed counterexample ("age 4 years, glucose 66 mg/dL, symptoms: can't tell") as an assertion; empty when a part
/// of it cannot be read.
std::optional<std::string> smt_from_example(const Protocol& protocol, const std::string& example);

/// A region that a comparison told, without its unit, as a truth over the names of the older version.
std::string smt_from_cases(const Protocol& protocol, const Cases& cases);

}  // namespace rushlight::tests
