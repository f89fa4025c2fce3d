#include <algorithm>
#include <utility>

#include "protocol/resolve.hpp"
#include "read/resolved_from_xml.hpp"

namespace rushlight {

Read<Protocol> resolved_draft(Read<Draft> draft) {
  if (!draft.value) return {std::nullopt, std::move(draft.findings)};
  Read<Protocol> resolved = resolve(*draft.value);
  const std::size_t read_findings = draft.findings.size();
  const bool misread = has_error(draft.findings);  // then a doubt about what was read is none about the file
  for (Finding& finding : resolved.findings) {
    const auto read_end = draft.findings.begin() + static_cast<std::ptrdiff_t>(read_findings);
    const bool follows = std::any_of(draft.findings.begin(), read_end, [&](const Finding& earlier) {
      const std::uint32_t column = earlier.where.column, from = finding.where.column;
      return earlier.where.line == finding.where.line &&
             (column == from || (column > from && column < from + finding.where.length));
    });
    if (!follows && !(misread && finding.severity == Severity::warning)) draft.findings.push_back(std::move(finding));
  }
  sort_findings(draft.findings);
  if (has_error(draft.findings)) resolved.value.reset();
  return {std::move(resolved.value), std::move(draft.findings)};
}

}  // namespace rushlight
