#include "cli/check_files.hpp"

#include <filesystem>
#include <ostream>

#include "cli/print_findings.hpp"
#include "cli/read_file.hpp"
#include "cli/today.hpp"
#include "read/vetted_bytes.hpp"
#include "wire/child_from_json.hpp"
#include "wire/json_tree.hpp"

namespace rushlight {
namespace {

ProtocolSet one_file(const std::string& path, bool is_child) {
  ProtocolSet set;
  FileBytes bytes = bytes_of_file(path, is_child ? kChildLimits.bytes : kMostBytes);
  if (auto* finding = std::get_if<Finding>(&bytes)) {
    set.findings.push_back(std::move(*finding));
    return set;
  }
  const std::string& text = std::get<std::string>(bytes);
  if (is_child) {
    set.texts[path] = text;
    Read<Child> read = child_from_json(text, path, today());
    set.findings = std::move(read.findings);
    if (read.value && read.value->contacts.emergency.empty()) {
      const WrongUse missing{"no emergency number is in the child file", "add `emergency` to `contacts`"};
      set.findings.push_back(Finding{Severity::warning, Where{path, 0, 0, 0}, missing, {}});
    }
  } else {
    add_protocol(set, path, text);
  }
  return set;
}

std::string counted(std::size_t number, const char* one, const char* many) {
  return std::to_string(number) + " " + (number == 1 ? one : many);
}

}  // namespace

int check_files(const std::string& path, std::ostream& out) {
  std::error_code error;
  const bool is_folder = std::filesystem::is_directory(path, error);
  const ProtocolSet set =
      is_folder ? set_in_folder(path, "") : one_file(path, std::filesystem::path(path).extension() == ".json");
  print_findings(out, set.findings, set.texts);
  std::size_t errors = 0;
  for (const Finding& finding : set.findings) errors += finding.severity == Severity::error ? 1 : 0;
  const std::size_t warnings = set.findings.size() - errors;
  out << path << ": " << counted(errors, "error", "errors");
  if (warnings > 0) out << ", " << counted(warnings, "warning", "warnings");
  if (!set.all_checked) out << "; more can show once these are mended";
  out << '\n';
  return exit_status_of(set.findings);
}

}  // namespace rushlight
