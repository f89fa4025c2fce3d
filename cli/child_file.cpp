#include "cli/child_file.hpp"

#include "cli/embedded.hpp"
#include "cli/read_file.hpp"
#include "cli/today.hpp"
#include "wire/child_from_json.hpp"
#include "wire/json_tree.hpp"

namespace rushlight {
namespace {

constexpr std::string_view kDemoChild = "demo-child.json";

void read_child(ChildFile& file, const std::string& name, const Day& day) {
  Read<Child> read = child_from_json(file.bytes, name, day);
  file.child = std::move(read.value);
  file.findings = std::move(read.findings);
}

/// Every quoted day later or earlier by so much; all else, and so the length, stays.
void move_days(std::string& bytes, std::chrono::days by) {
  constexpr std::size_t kLength = 10;  // of "2026-03-01"
  for (std::size_t at = bytes.find('"'); at != std::string::npos; at = bytes.find('"', at + 1)) {
    if (bytes.size() <= at + kLength + 1 || bytes[at + kLength + 1] != '"') continue;
    const std::optional<Day> day = day_from_text(bytes.substr(at + 1, kLength));
    if (day) bytes.replace(at + 1, kLength, text_from_day(Day{std::chrono::sys_days(*day) + by}));
  }
}

}  // namespace

ChildFile demo_child(const Day& on) {
  ChildFile file;
  for (const EmbeddedFile& embedded : embedded_files()) {
    if (embedded.path == kDemoChild) file.bytes = embedded.bytes;
  }
  move_days(file.bytes, std::chrono::sys_days(on) - std::chrono::sys_days(kDemoDay));
  read_child(file, std::string(kDemoChild), on);
  return file;
}

ChildFile child_in(const std::string& path) {
  ChildFile file;
  FileBytes bytes = bytes_of_file(path, kChildLimits.bytes);
  if (auto* finding = std::get_if<Finding>(&bytes)) {
    file.findings.push_back(std::move(*finding));
    return file;
  }
  file.bytes = std::get<std::string>(std::move(bytes));
  read_child(file, path, today());
  return file;
}

}  // namespace rushlight
