#include "cli/numbers_set.hpp"

#include <algorithm>
#include <filesystem>

#include "cli/assembled_set.hpp"
#include "cli/embedded.hpp"
#include "cli/read_file.hpp"
#include "finding/quoted.hpp"
#include "read/examples_from_xml.hpp"
#include "read/protocol_from_xml.hpp"
#include "read/safety_from_xml.hpp"
#include "read/vetted_bytes.hpp"

namespace rushlight {
namespace {

namespace fs = std::filesystem;

void add_file(NumbersSet& set, const std::string& file, const std::string& bytes) {
  set.texts[file] = bytes;
  if (is_laws_file(file) || is_examples_file(file)) {
    set.beside.push_back({file, bytes});
    return;
  }
  const std::size_t before = set.files.size();
  const std::vector<Finding> refusal = add_draft(set, file, bytes, protocol_from_xml(bytes, file));
  if (set.files.size() > before) return;
  set.beside.push_back({file, bytes});
  set.findings.insert(set.findings.end(), refusal.begin(), refusal.end());
}

/// What set a file says it belongs to; empty when it cannot be read.
std::string set_of(const std::string& file, const std::string& bytes) {
  const auto text = [](const MaybeWord& word) { return word ? word->text : std::string(); };
  if (is_laws_file(file)) {
    const Read<SafetyDraft> laws = safety_from_xml(bytes, file);
    return laws.value ? text(laws.value->set) : "";
  }
  if (is_examples_file(file)) {
    const Read<ExamplesDraft> examples = examples_from_xml(bytes, file);
    return examples.value ? text(examples.value->set) : "";
  }
  const Read<Draft> draft = protocol_from_xml(bytes, file);
  return draft.value ? text(draft.value->set) : "";
}

void add_rest_of_set(NumbersSet& set) {
  if (set.files.empty()) return;
  const fs::path own(set.files.front().name), folder = own.parent_path();
  std::error_code error;
  std::vector<std::string> others;
  for (fs::directory_iterator entry(folder.empty() ? "." : folder, error), end; !error && entry != end;
       entry.increment(error)) {
    const fs::path other = entry->path().filename();
    if (other.extension() == ".xml" && other != own.filename()) others.push_back((folder / other).string());
  }
  std::sort(others.begin(), others.end());
  for (const std::string& other : others) {
    const FileBytes bytes = bytes_of_file(other, kMostBytes);
    const auto* text = std::get_if<std::string>(&bytes);
    if (text == nullptr || set_of(other, *text) != set.files.front().protocol.set) continue;
    set.beside.push_back({other, *text});
    set.texts[other] = *text;
  }
}

void add_single_file(NumbersSet& set) {
  FileBytes bytes = bytes_of_file(set.path, kMostBytes);
  if (auto* finding = std::get_if<Finding>(&bytes)) {
    set.findings.push_back(std::move(*finding));
    return;
  }
  add_file(set, set.path, std::get<std::string>(bytes));
  add_rest_of_set(set);
}

void add_folder(NumbersSet& set) {
  const ProtocolSet read = set_in_folder(set.path, "");
  for (const auto& [file, bytes] : read.texts) add_file(set, file, bytes);
  for (const Finding& finding : read.findings) {
    const bool unread = !read.texts.contains(finding.where.file);
    if (unread) set.findings.push_back(finding);
  }
}

void add_embedded(NumbersSet& set) {
  for (const EmbeddedFile& file : embedded_files()) {
    const std::string path(file.path);
    if (path.starts_with(set.path + "/") && path.ends_with(".xml")) add_file(set, path, std::string(file.bytes));
  }
  set.inside_program = !set.files.empty();
  if (set.inside_program) return;
  const std::optional<std::string> near = near_word(set.path, embedded_sets());
  const std::string meant =
      near ? "; the program itself has a set `" + *near + "`"
           : "; name a folder or a file that is there, or a set of the program: " + quoted_choice(embedded_sets());
  set.findings.push_back(Finding{
      Severity::error, Where{set.path, 0, 0, 0}, NotReadable{"there is no such folder, file or set" + meant}, {}});
}

}  // namespace

NumbersSet numbers_set(const std::string& name) {
  NumbersSet set;
  set.path = name;
  std::error_code error;
  if (fs::is_directory(name, error)) {
    add_folder(set);
  } else if (fs::exists(fs::symlink_status(name, error))) {
    add_single_file(set);
  } else {
    add_embedded(set);
  }
  collect_numbers(set);
  return set;
}

}  // namespace rushlight
