#include "finding/finding.hpp"

#include <algorithm>
#include <tuple>

namespace rushlight {

void sort_findings(std::vector<Finding>& findings) {
  std::stable_sort(findings.begin(), findings.end(), [](const Finding& a, const Finding& b) {
    return std::tie(a.where.file, a.where.line, a.where.column) < std::tie(b.where.file, b.where.line, b.where.column);
  });
}

bool has_error(const std::vector<Finding>& findings) {
  return std::any_of(findings.begin(), findings.end(),
                     [](const Finding& finding) { return finding.severity == Severity::error; });
}

}  // namespace rushlight
