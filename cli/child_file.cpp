#include "cli/child_file.hpp"

#include "cli/embedded.hpp"
#include "cli/read_file.hpp"
#include "cli/today.hpp"
#include "wire/child_from_json.hpp"
#include "wire/json_tree.hpp"

namespace rushlight {
namespace {

constexpr std::string_view kDemoChild = "demo-child.json";

void read_child(ChildFile& file, const std::string& name) {
  Read<Child> read = child_from_json(file.bytes, name, today());
  file.child = std::move(read.value);
  file.findings = std::move(read.findings);
}

}  // namespace

ChildFile demo_child() {
  ChildFile file;
  for (const EmbeddedFile& embedded : embedded_files()) {
    if (embedded.path == kDemoChild) file.bytes = embedded.bytes;
  }
  read_child(file, std::string(kDemoChild));
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
  read_child(file, path);
  return file;
}

}  // namespace rushlight
