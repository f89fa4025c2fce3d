#include "cli/fresh_findings.hpp"

#include <algorithm>

namespace rushlight {

bool is_among(const Finding& finding, const std::vector<Finding>& earlier) {
  return std::any_of(earlier.begin(), earlier.end(), [&](const Finding& one) {
    return one.where.file == finding.where.file && sentence(one.kind) == sentence(finding.kind);
  });
}

Counts counted(const std::vector<Finding>& findings) {
  Counts counts;
  for (const Finding& finding : findings) ++(finding.severity == Severity::error ? counts.errors : counts.warnings);
  return counts;
}

}  // namespace rushlight
