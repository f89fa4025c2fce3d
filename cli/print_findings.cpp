#include "cli/print_findings.hpp"

#include <ostream>
#include <sstream>

#include "cli/plain_text.hpp"
#include "finding/byte_order_mark.hpp"

namespace rushlight {
namespace {


}  // namespace

std::optional<std::string> line_at(const FileTexts& texts, const Where& where) {
  const auto found = texts.find(where.file);
  if (found == texts.end() || where.line == 0) return std::nullopt;
  std::string_view text = found->second;
  if (text.starts_with(kByteOrderMark)) text.remove_prefix(kByteOrderMark.size());
  for (std::uint32_t line = 1; line < where.line; ++line) {
    const std::size_t end = text.find('\n');
    if (end == std::string_view::npos) return std::nullopt;
    text.remove_prefix(end + 1);
  }
  return std::string(text.substr(0, text.find('\n')));
}

void print_findings(std::ostream& out, const std::vector<Finding>& findings, const FileTexts& texts) {
  // The line of the file is shown as it is, so it must not steer the terminal it is shown on.
  for (const Finding& finding : findings) {
    std::istringstream lines(text_from_finding(finding, line_at(texts, finding.where)));
    for (std::string line; std::getline(lines, line);) out << cleaned(line) << '\n';
  }
}

std::string text_from_findings(const std::vector<Finding>& findings, const FileTexts& texts) {
  std::ostringstream out;
  print_findings(out, findings, texts);
  return out.str();
}

int exit_status_of(const std::vector<Finding>& findings) {
  for (const Finding& finding : findings) {
    if (finding.kind.is<NotReadable>() || finding.kind.is<NotWritten>()) return 2;
  }
  return has_error(findings) ? 1 : 0;
}

}  // namespace rushlight
