#include "cli/assembled_set.hpp"

#include <algorithm>
#include <string_view>
#include <utility>

#include "protocol/examples_of.hpp"
#include "protocol/safety_rules.hpp"
#include "verify/apart.hpp"
#include "verify/in_time.hpp"
#include "verify/laws.hpp"
#include "verify/lost_uses.hpp"

namespace rushlight {
namespace {

bool is_named(const std::string& path, std::string_view name) {
  const std::size_t slash = path.find_last_of('/');
  return path.compare(slash == std::string::npos ? 0 : slash + 1, std::string::npos, name) == 0;
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

void hold_beside_each_other(ProtocolSet& set) {
  std::vector<const Protocol*> protocols;
  for (const LoadedProtocol& loaded : set.protocols) protocols.push_back(&loaded.checked.protocol());
  point_at_lost_uses(protocols, set.findings);
  for (Finding& finding : apart_in_set(protocols)) set.findings.push_back(std::move(finding));
}

/// What two protocols have to say about one place is said once.
void add_once(ProtocolSet& set, Finding finding) {
  const bool told = std::any_of(set.findings.begin(), set.findings.end(), [&](const Finding& earlier) {
    return earlier.where == finding.where && earlier.kind.index() == finding.kind.index();
  });
  if (!told) set.findings.push_back(std::move(finding));
}

/// The examples are looked at before they are walked, once for all protocols.
void look_at_examples(ProtocolSet& set) {
  if (!set.examples) return;
  std::vector<std::string> names;
  for (const LoadedProtocol& loaded : set.protocols) names.push_back(loaded.checked.protocol().name);
  for (Finding& finding : examples_findings(*set.examples, names)) add_once(set, std::move(finding));
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
  set.alone = std::exchange(set.protocols, {});
  const std::vector<LoadedProtocol>& alone = set.alone;
  std::vector<CheckedProtocol> checked;
  for (const LoadedProtocol& loaded : alone) checked.push_back(loaded.checked);
  for (const LoadedProtocol& loaded : alone) {
    Checked whole = check_linked(checked, loaded.checked.protocol().name, set.examples ? &*set.examples : nullptr);
    for (Finding& finding : whole.findings) add_once(set, std::move(finding));
    for (FileOfSet& file : set.files) {
      if (is_examples_file(file.name)) file.shown.insert(file.shown.end(), whole.shown.begin(), whole.shown.end());
    }
    if (!whole.protocol) continue;
    look_at_times(set, loaded, whole.protocol->protocol());
    std::string kept = kept_text(whole.protocol->protocol(), alone, set);
    set.protocols.push_back(LoadedProtocol{*whole.protocol, loaded.file, std::move(kept)});
  }
}

}  // namespace

void finish(ProtocolSet& set) {
  refuse_repeated_names(set);
  if (set.all_checked() && !has_error(set.findings)) hold_beside_each_other(set);
  if (set.all_checked() && !has_error(set.findings)) look_at_laws(set);
  if (set.all_checked() && !has_error(set.findings)) look_at_examples(set);
  if (set.all_checked() && !has_error(set.findings)) link(set);
  sort_findings(set.findings);
  // What examples come to follows from the rest.
  std::stable_partition(set.findings.begin(), set.findings.end(),
                        [](const Finding& finding) { return !is_examples_file(finding.where.file); });
}

bool is_laws_file(const std::string& path) { return is_named(path, "safety.xml"); }
bool is_examples_file(const std::string& path) { return is_named(path, "examples.xml"); }

void add_resolved(ProtocolSet& set, const std::string& file, const std::string& bytes, Read<Protocol> read) {
  const bool refused = has_error(read.findings);
  set.findings.insert(set.findings.end(), read.findings.begin(), read.findings.end());
  set.files.push_back(FileOfSet{file, !refused && read.value, {}});
  if (!set.files.back().sense) return;
  Checked checked = check(std::move(*read.value));
  set.files.back().shown = std::move(checked.shown);
  set.findings.insert(set.findings.end(), checked.findings.begin(), checked.findings.end());
  if (checked.protocol) set.protocols.push_back(LoadedProtocol{*checked.protocol, file, bytes});
}

void add_laws(ProtocolSet& set, const std::string& file, Read<SafetyDraft> read) {
  set.files.push_back(FileOfSet{file, !has_error(read.findings), {}});
  set.findings.insert(set.findings.end(), read.findings.begin(), read.findings.end());
  set.laws = std::move(read.value);
}

void add_examples(ProtocolSet& set, const std::string& file, Read<ExamplesDraft> read) {
  set.files.push_back(FileOfSet{file, !has_error(read.findings), {}});
  set.findings.insert(set.findings.end(), read.findings.begin(), read.findings.end());
  set.examples = std::move(read.value);
}

bool ProtocolSet::all_checked() const {
  return std::all_of(files.begin(), files.end(), [](const FileOfSet& file) { return file.sense; });
}

const LoadedProtocol* ProtocolSet::find(const std::string& id) const {
  for (const LoadedProtocol& loaded : protocols) {
    if (loaded.checked.protocol().name == id) return &loaded;
  }
  return nullptr;
}

}  // namespace rushlight
