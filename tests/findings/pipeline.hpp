#pragma once

#include <string>
#include <vector>

#include "finding/finding.hpp"

namespace rushlight::tests {

/// Everything that is said about a case. The folder the case lies in names how far it is taken:
///   protocol   bytes -> draft -> protocol: mistakes of writing
///   sense      the same, then the checks: mistakes of sense, in protocols that are written right
///   child      a child file, read on 2026-03-01
///   event      one line of events, against good/protocol/every-word.xml
/// Another kind of input gets a folder and a line of its own here and nowhere else.
std::vector<Finding> findings_of(const std::string& folder, const std::string& bytes, const std::string& name);

}  // namespace rushlight::tests
