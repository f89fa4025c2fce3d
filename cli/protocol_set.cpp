#include "cli/protocol_set.hpp"

#include <algorithm>
#include <filesystem>

#include "cli/assembled_set.hpp"
#include "cli/embedded.hpp"
#include "cli/read_file.hpp"
#include "cli/trusted_keys.hpp"
#include "read/examples_from_xml.hpp"
#include "read/resolved_from_xml.hpp"
#include "read/safety_from_xml.hpp"
#include "read/vetted_bytes.hpp"

namespace rushlight {
namespace {

namespace fs = std::filesystem;

Finding about_file(const std::string& file, Kind kind) {
  return Finding{Severity::error, Where{file, 0, 0, 0}, std::move(kind), {}};
}

// What somebody who named a folder of folders may have meant.
std::string folders_with_protocols(const std::string& folder) {
  std::vector<std::string> found;
  std::error_code error;
  for (fs::directory_iterator entry(folder, error), end; !error && entry != end; entry.increment(error)) {
    const std::string inner = entry->path().string();
    if (!files_of_set(inner).empty()) found.push_back("`" + inner + "`");
  }
  std::sort(found.begin(), found.end());
  std::string text;
  for (std::size_t i = 0; i < found.size(); ++i) {
    if (i > 0) text += i + 1 == found.size() ? " or " : ", ";
    text += found[i];
  }
  return text;
}

Finding no_protocol_in(const std::string& folder) {
  const std::string others = folders_with_protocols(folder);
  const std::string instead = others.empty() ? "" : "; name " + others;
  return about_file(folder, NotReadable{"this folder holds no protocol (*.xml)" + instead});
}

std::string name_in_set(const std::string& file) { return fs::path(file).filename().string(); }

/// The set as it lies there, before anything is read: an approval is over bytes.
void look_at_approval(ProtocolSet& set, const std::vector<KeptFile>& files) {
  std::vector<NamedBytes> named;
  for (const KeptFile& file : files) named.push_back(NamedBytes{name_in_set(file.name), file.bytes});
  set.sealed = sealed_set(named, trusted_keys());
}

/// What the reader made of the approval counts only if the very same was looked at.
Standing standing_in(const ProtocolSet& set, const std::string& file, const std::string& bytes, Approval read) {
  const std::string name = name_in_set(file);
  read.standing = Standing::unseen;
  if (approval_in(bytes) != read) return Standing::changed;
  if (!set.sealed) return standing_of(NamedBytes{name, bytes}, trusted_keys());
  return set.sealed->approval ? set.sealed->approval->standing : Standing::changed;
}

/// All files of a set, in this order; those that cannot be read are said by `set` already.
void add_all(ProtocolSet& set, const std::vector<KeptFile>& files) {
  look_at_approval(set, files);
  for (const KeptFile& file : files) add_protocol(set, file.name, file.bytes);
}

}  // namespace

void add_protocol(ProtocolSet& set, const std::string& file, const std::string& bytes) {
  set.texts[file] = bytes;
  if (is_laws_file(file)) return add_laws(set, file, safety_from_xml(bytes, file));
  if (is_examples_file(file)) return add_examples(set, file, examples_from_xml(bytes, file));
  Read<Protocol> read = resolved_from_xml(bytes, file);
  if (read.value) {
    std::optional<Approval>& approval = read.value->parts.front().approval;
    if (approval) approval->standing = standing_in(set, file, bytes, *approval);
  }
  add_resolved(set, file, bytes, std::move(read));
}

ProtocolSet set_of_files(const std::vector<KeptFile>& files) {
  ProtocolSet set;
  add_all(set, files);
  finish(set);
  return set;
}

ProtocolSet set_kept_in_journal(const std::vector<KeptFile>& files) {
  ProtocolSet set;
  add_all(set, files);
  set.laws.reset();
  set.examples.reset();
  finish(set);
  return set;
}

std::vector<std::string> files_of_set(const std::string& folder) {
  std::vector<std::string> files;
  std::error_code error;
  for (fs::directory_iterator entry(folder, error), end; !error && entry != end; entry.increment(error)) {
    if (entry->path().extension() == ".xml") files.push_back(entry->path().string());
  }
  std::sort(files.begin(), files.end());
  return files;
}

std::vector<std::string> embedded_sets() {
  std::vector<std::string> names;
  for (const EmbeddedFile& file : embedded_files()) {
    const std::size_t slash = file.path.find('/');
    if (slash == std::string_view::npos || !file.path.ends_with(".xml")) continue;
    const std::string folder(file.path.substr(0, slash));
    if (names.empty() || names.back() != folder) names.push_back(folder);
  }
  return names;
}

ProtocolSet embedded_set(const std::string& name) {
  ProtocolSet set;
  std::vector<KeptFile> files;
  const std::vector<std::string> known = embedded_sets();
  for (const EmbeddedFile& file : embedded_files()) {
    if (file.path.starts_with(name + "/") && file.path.ends_with(".xml"))
      files.push_back(KeptFile{std::string(file.path), std::string(file.bytes)});
  }
  add_all(set, files);
  if (std::find(known.begin(), known.end(), name) == known.end()) {
    set.findings.push_back(about_file("the sets inside the program", UnknownId{name, "set", known}));
  }
  finish(set);
  return set;
}

ProtocolSet set_in_folder(const std::string& folder, const std::string& name) {
  ProtocolSet set;
  std::error_code error;
  if (!fs::is_directory(folder, error)) {
    set.findings.push_back(about_file(folder, NotReadable{"it is not a folder"}));
    return set;
  }
  std::vector<std::string> files = files_of_set(folder);
  if (files.empty() && !name.empty()) files = files_of_set((fs::path(folder) / name).string());
  const bool has_protocol = std::any_of(files.begin(), files.end(), [](const std::string& file) {
    return !is_laws_file(file) && !is_examples_file(file);
  });
  if (!has_protocol) set.findings.push_back(no_protocol_in(folder));
  std::vector<KeptFile> read;
  for (const std::string& file : files) {
    FileBytes bytes = bytes_of_file(file, kMostBytes);
    if (auto* finding = std::get_if<Finding>(&bytes)) {
      set.findings.push_back(std::move(*finding));
      set.files.push_back(FileOfSet{file, false, {}});
    } else {
      read.push_back(KeptFile{file, std::get<std::string>(std::move(bytes))});
    }
  }
  add_all(set, read);
  finish(set);
  return set;
}

}  // namespace rushlight
