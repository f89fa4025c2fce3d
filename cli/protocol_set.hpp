#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "finding/finding.hpp"
#include "protocol/examples_draft.hpp"
#include "protocol/safety_draft.hpp"
#include "seal/seal.hpp"
#include "verify/check.hpp"
#include "wire/kept_set.hpp"

namespace rushlight {

/// A protocol that may be walked, with those of its set that it can come to, and the bytes all of them were read from.
struct LoadedProtocol {
  CheckedProtocol checked;
  std::string file;
  std::string bytes;  // text_from_kept
};

/// The text of each file that was read, by its name in findings: for showing the line of a finding.
using FileTexts = std::map<std::string, std::string>;

/// A file of a set, in the order of the folder. `sense` is false when it was refused before its checks: mended, it may
/// show more.
struct FileOfSet {
  std::string name;
  bool sense = false;
  std::vector<Shown> shown = {};  // by the file alone
};

/// The protocols of one folder, and everything there is to say about them. A file with an error is not among
/// `protocols`.
struct ProtocolSet {
  std::vector<LoadedProtocol> protocols;
  std::vector<LoadedProtocol> alone;  // each as its own file says it, once they are linked
  std::vector<Finding> findings;      // of all files, sorted
  FileTexts texts;
  std::optional<SafetyDraft> laws;        // of the set's safety.xml
  std::optional<ExamplesDraft> examples;  // of its examples.xml
  std::vector<FileOfSet> files;
  std::optional<SealedSet> sealed;  // how it stands with its approval; empty for a file that is looked at alone

  bool all_checked() const;

  /// The protocol with this id; null when the set has none, or when its file was refused.
  const LoadedProtocol* find(const std::string& id) const;
};

/// Bytes to CheckedProtocol: read, resolve, check; its approval looked at, with those of `set.sealed` when it is there.
/// Adds the protocol, alone, or the findings to `set`. A file called safety.xml holds the laws of the set, and one
/// called examples.xml its worked examples.
void add_protocol(ProtocolSet& set, const std::string& file, const std::string& bytes);

/// The set of these files: each read, resolved and checked, then each linked with the others, held against its laws and
/// its worked examples.
ProtocolSet set_of_files(const std::vector<KeptFile>& files);

/// The same, as a journal kept it. Its laws and examples were looked at when the episode began.
ProtocolSet set_kept_in_journal(const std::vector<KeptFile>& files);

/// The files of a folder that make up a set: every *.xml, by name.
std::vector<std::string> files_of_set(const std::string& folder);

/// The sets that travel inside the program.
std::vector<std::string> embedded_sets();

/// A set that travels inside the program: "reference". A name that none has is a finding.
ProtocolSet embedded_set(const std::string& name);

/// Every *.xml of a folder. A folder without any is a finding. When the folder holds sets in folders of their own, the
/// one called `set` is taken.
ProtocolSet set_in_folder(const std::string& folder, const std::string& set);

}  // namespace rushlight
