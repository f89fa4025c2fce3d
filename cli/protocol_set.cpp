#include "cli/protocol_set.hpp"

#include <algorithm>
#include <filesystem>

#include "cli/embedded.hpp"
#include "cli/read_file.hpp"
#include "cli/trusted_keys.hpp"
#include "protocol/examples_of.hpp"
#include "protocol/safety_rules.hpp"
#include "read/examples_from_xml.hpp"
#include "read/resolved_from_xml.hpp"
#include "read/safety_from_xml.hpp"
#include "read/vetted_bytes.hpp"
#include "verify/in_time.hpp"
#include "verify/laws.hpp"
#include "verify/worked_examples.hpp"

namespace rushlight {
namespace {

namespace fs = std::filesystem;

constexpr const char* kLawsFile = "safety.xml";
constexpr const char* kExamplesFile = "examples.xml";

bool is_beside_protocols(const std::string& file) {
  const fs::path name = fs::path(file).filename();
  return name == kLawsFile || name == kExamplesFile;
}

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

// Two files of a set must not both be the protocol of one name.
void refuse_repeated_names(ProtocolSet& set) {
  for (std::size_t i = 0; i < set.protocols.size(); ++i) {
    const Protocol& later = set.protocols[i].checked.protocol();
    for (std::size_t j = 0; j < i; ++j) {
      const Protocol& earlier = set.protocols[j].checked.protocol();
      if (earlier.name != later.name) continue;
      set.findings.push_back(Finding{Severity::error, later.where, RepeatedId{later.name, "protocol"},
                                     Because{"the set has it in another file", earlier.where}});
    }
  }
}

/// What two protocols have to say about one place is said once.
void add_once(ProtocolSet& set, Finding finding) {
  const bool told = std::any_of(set.findings.begin(), set.findings.end(), [&](const Finding& earlier) {
    return earlier.where == finding.where && earlier.kind.index() == finding.kind.index();
  });
  if (!told) set.findings.push_back(std::move(finding));
}

void add_laws(ProtocolSet& set, const std::string& file, const std::string& bytes) {
  Read<SafetyDraft> read = safety_from_xml(bytes, file);
  set.files.push_back(FileOfSet{file, !has_error(read.findings), {}});
  set.findings.insert(set.findings.end(), read.findings.begin(), read.findings.end());
  set.laws = std::move(read.value);
}

void add_examples(ProtocolSet& set, const std::string& file, const std::string& bytes) {
  Read<ExamplesDraft> read = examples_from_xml(bytes, file);
  set.files.push_back(FileOfSet{file, !has_error(read.findings), {}});
  set.findings.insert(set.findings.end(), read.findings.begin(), read.findings.end());
  set.examples = std::move(read.value);
}

/// The examples are looked at before they are walked, once for all protocols.
void look_at_examples(ProtocolSet& set) {
  if (!set.examples) return;
  std::vector<std::string> names;
  for (const LoadedProtocol& loaded : set.protocols) names.push_back(loaded.checked.protocol().name);
  for (Finding& finding : examples_findings(*set.examples, names)) add_once(set, std::move(finding));
}

/// Those that begin with this protocol.
void walk_examples(ProtocolSet& set, const Protocol& whole) {
  if (!set.examples) return;
  Read<std::vector<WorkedExample>> examples = worked_examples_of(*set.examples, whole);
  for (Finding& finding : examples.findings) add_once(set, std::move(finding));
  if (!examples.value) return;
  WorkedExamples walked = walked_examples(whole, *examples.value);
  for (Finding& finding : walked.findings) set.findings.push_back(std::move(finding));
  for (FileOfSet& file : set.files) {
    if (walked.shown && fs::path(file.name).filename() == kExamplesFile) file.shown.push_back(*walked.shown);
  }
}

/// Each protocol is held against the laws that name it.
void look_at_laws(ProtocolSet& set) {
  if (!set.laws) return;
  std::vector<std::string> names;
  for (const LoadedProtocol& loaded : set.protocols) names.push_back(loaded.checked.protocol().name);
  for (Finding& finding : safety_findings(*set.laws, names)) add_once(set, std::move(finding));
  for (const LoadedProtocol& loaded : set.protocols) {
    Read<SafetyRules> rules = safety_rules_of(*set.laws, loaded.checked.protocol());
    for (Finding& finding : rules.findings) add_once(set, std::move(finding));
    if (!rules.value) continue;
    for (Finding& finding : broken_laws(loaded.checked, *rules.value)) set.findings.push_back(std::move(finding));
  }
}

/// For the journal: the files of the protocols that this one can come to, its own first. An approval stands for a whole
/// set, so with one all of them are kept, by name.
std::string kept_text(const Protocol& whole, const std::vector<LoadedProtocol>& alone, const ProtocolSet& set) {
  std::vector<KeptFile> files;
  for (const Part& part : whole.parts) {
    for (const LoadedProtocol& loaded : alone) {
      if (loaded.checked.protocol().name == part.name) files.push_back({loaded.file, loaded.bytes});
    }
  }
  const bool approved = set.sealed && set.sealed->state != SealedSet::State::none;
  if (!approved) return text_from_kept(files);
  for (const auto& [name, bytes] : set.texts) {
    const auto same = [&, &file = name](const KeptFile& kept) { return kept.name == file; };
    if (std::none_of(files.begin(), files.end(), same)) files.push_back({name, bytes});
  }
  return text_from_kept(files, true);
}

/// How late a call can be is a law over all nights, wherever they go on.
void look_at_times(ProtocolSet& set, const LoadedProtocol& alone, const Protocol& whole) {
  if (!set.laws) return;
  const Read<SafetyRules> rules = safety_rules_of(*set.laws, alone.checked.protocol());
  if (!rules.value) return;
  InTime found = calls_in_time(alone.checked.protocol(), whole, rules.value->within);
  for (Finding& finding : found.findings) set.findings.push_back(std::move(finding));
  for (FileOfSet& file : set.files) {
    if (file.name != alone.file) continue;
    // Before what nobody should take for shown.
    const auto at = std::find_if(file.shown.begin(), file.shown.end(),
                                 [](const Shown& shown) { return std::holds_alternative<NotShown>(shown); });
    file.shown.insert(at, found.shown.begin(), found.shown.end());
  }
}

// Each protocol is walked together with those it visits or hands over to.
void link(ProtocolSet& set) {
  const std::vector<LoadedProtocol> alone = set.protocols;
  std::vector<CheckedProtocol> checked;
  for (const LoadedProtocol& loaded : alone) checked.push_back(loaded.checked);
  set.protocols.clear();
  for (const LoadedProtocol& loaded : alone) {
    Checked whole = check_linked(checked, loaded.checked.protocol().name);
    for (Finding& finding : whole.findings) {
      add_once(set, std::move(finding));
    }
    if (!whole.protocol) continue;
    look_at_times(set, loaded, whole.protocol->protocol());
    walk_examples(set, whole.protocol->protocol());
    std::string kept = kept_text(whole.protocol->protocol(), alone, set);
    set.protocols.push_back(LoadedProtocol{*whole.protocol, loaded.file, std::move(kept)});
  }
}

void finish(ProtocolSet& set) {
  refuse_repeated_names(set);
  if (set.all_checked() && !has_error(set.findings)) look_at_laws(set);
  if (set.all_checked() && !has_error(set.findings)) look_at_examples(set);
  if (set.all_checked() && !has_error(set.findings)) link(set);
  sort_findings(set.findings);
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

bool ProtocolSet::all_checked() const {
  return std::all_of(files.begin(), files.end(), [](const FileOfSet& file) { return file.sense; });
}

const LoadedProtocol* ProtocolSet::find(const std::string& id) const {
  for (const LoadedProtocol& loaded : protocols) {
    if (loaded.checked.protocol().name == id) return &loaded;
  }
  return nullptr;
}

void add_protocol(ProtocolSet& set, const std::string& file, const std::string& bytes) {
  set.texts[file] = bytes;
  if (fs::path(file).filename() == kLawsFile) return add_laws(set, file, bytes);
  if (fs::path(file).filename() == kExamplesFile) return add_examples(set, file, bytes);
  Read<Protocol> read = resolved_from_xml(bytes, file);
  const bool refused = has_error(read.findings);
  set.findings.insert(set.findings.end(), read.findings.begin(), read.findings.end());
  set.files.push_back(FileOfSet{file, !refused && read.value, {}});
  if (!set.files.back().sense) return;
  std::optional<Approval>& approval = read.value->parts.front().approval;
  if (approval) approval->standing = standing_in(set, file, bytes, *approval);
  Checked checked = check(std::move(*read.value));
  set.files.back().shown = std::move(checked.shown);
  set.findings.insert(set.findings.end(), checked.findings.begin(), checked.findings.end());
  if (checked.protocol) set.protocols.push_back(LoadedProtocol{*checked.protocol, file, bytes});
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

ProtocolSet embedded_set(const std::string& name) {
  ProtocolSet set;
  std::vector<KeptFile> files;
  std::vector<std::string> known;
  for (const EmbeddedFile& file : embedded_files()) {
    const std::size_t slash = file.path.find('/');
    if (slash == std::string_view::npos || !file.path.ends_with(".xml")) continue;
    const std::string folder(file.path.substr(0, slash));
    if (known.empty() || known.back() != folder) known.push_back(folder);
    if (folder == name) files.push_back(KeptFile{std::string(file.path), std::string(file.bytes)});
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
  const bool has_protocol =
      std::any_of(files.begin(), files.end(), [](const std::string& file) { return !is_beside_protocols(file); });
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
