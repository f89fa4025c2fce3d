#include "cli/compare_command.hpp"

#include <filesystem>
#include <ostream>

#include "cli/compare_json.hpp"
#include "cli/compare_text.hpp"
#include "cli/plain_text.hpp"
#include "cli/print_findings.hpp"
#include "cli/protocol_set.hpp"
#include "cli/read_file.hpp"
#include "read/resolved_from_xml.hpp"

namespace rushlight {
namespace {

/// The protocols of one side, each by itself: a visit is told as a visit.
struct Versions {
  std::vector<Protocol> protocols;
  std::vector<std::string> files;  // theirs
  std::string laws;                // the bytes of safety.xml
  bool refused = false;
};

ProtocolSet set_at(const std::string& path) {
  std::error_code error;
  if (std::filesystem::is_directory(path, error)) return set_in_folder(path, "");
  if (!std::filesystem::exists(path, error) && path.find('/') == std::string::npos &&
      path.find('.') == std::string::npos)
    return embedded_set(path);
  const std::string folder = std::filesystem::path(path).parent_path().string();
  return set_in_folder(folder.empty() ? "." : folder, "");
}

bool is_file(const std::string& path, const std::string& file) {
  std::error_code error;
  return path == file || std::filesystem::equivalent(path, file, error);
}

Versions versions_at(const std::string& path, std::ostream& err) {
  Versions versions;
  const ProtocolSet set = set_at(path);
  std::error_code error;
  const bool one_file = std::filesystem::is_regular_file(path, error);
  if (has_error(set.findings)) {
    print_findings(err, set.findings, set.texts);
    versions.refused = true;
    return versions;
  }
  for (const FileOfSet& file : set.files) {
    if (one_file && !is_file(path, file.name)) continue;
    Read<Protocol> read = resolved_from_xml(set.texts.at(file.name), file.name);
    if (!read.value) continue;
    versions.protocols.push_back(std::move(*read.value));
    versions.files.push_back(file.name);
  }
  for (const auto& [name, text] : set.texts) {
    if (std::filesystem::path(name).filename() == "safety.xml") versions.laws = text;
  }
  if (versions.protocols.empty()) {
    err << cleaned(path) << ": there is no protocol to compare. Name a folder of protocols, or one protocol.\n";
    versions.refused = true;
  }
  return versions;
}

const Protocol* named(const Versions& versions, const std::string& name) {
  for (const Protocol& protocol : versions.protocols) {
    if (protocol.name == name) return &protocol;
  }
  return nullptr;
}

void print(std::ostream& out, const Compared& compared) {
  out << compared.protocol << '\n';
  if (!compared.both) {
    out << (compared.only_was ? "  This protocol is gone.\n" : "  This protocol is new.\n");
    return;
  }
  out << text_from_differences(*compared.both) << '\n';
}

}  // namespace

int compare_command(const CompareOptions& options, std::ostream& out, std::ostream& err) {
  const Versions was = versions_at(options.was, err), now = versions_at(options.now, err);
  if (was.refused || now.refused) return 2;
  std::vector<Compared> all;
  for (const Protocol& protocol : was.protocols) {
    const Protocol* other = named(now, protocol.name);
    // Two files named one by one are compared whatever they are called.
    if (other == nullptr && was.protocols.size() == 1 && now.protocols.size() == 1) other = &now.protocols.front();
    Compared compared{protocol.name, {}, other == nullptr};
    if (other != nullptr) compared.both = compare(protocol, *other);
    all.push_back(std::move(compared));
  }
  for (const Protocol& protocol : now.protocols) {
    const bool single = was.protocols.size() == 1 && now.protocols.size() == 1;
    if (!single && named(was, protocol.name) == nullptr) all.push_back(Compared{protocol.name, {}, false});
  }
  const bool laws = was.laws != now.laws;
  bool changed = laws, gave_up = false;
  for (const Compared& compared : all) {
    changed = changed || !compared.both || !compared.both->changes.empty();
    gave_up = gave_up || (compared.both && compared.both->gave_up);
  }
  if (options.json) {
    out << json_from_compared(all, laws) << '\n';
  } else {
    for (const Compared& compared : all) print(out, compared);
    if (laws) out << "The clinic's laws in safety.xml are other ones.\n";
    out << "What changes is shown, not whether it is right: that stays the clinic's decision.\n";
  }
  return changed || gave_up ? 1 : 0;
}

}  // namespace rushlight
