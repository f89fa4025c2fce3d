#pragma once

#include <string>
#include <vector>

#include "cli/fresh_findings.hpp"
#include "cli/protocol_set.hpp"
#include "episode/approval_text.hpp"
#include "finding/property.hpp"

namespace rushlight {

/// How it stands with one property of a file.
struct Verdict {
  enum class State : std::uint8_t { holds, broken, not_looked_at } state;
  Property property;
  std::vector<const Finding*> findings;  // of the file; warnings too, which break nothing
};

struct CheckedFile {
  std::string name;
  enum class Kind : std::uint8_t { protocol, child, folder } kind;  // a folder only when something is wrong with it
  bool to_the_end;                                                  // false: refused before everything was looked at
  std::vector<Finding> findings;                                    // in file order
  std::vector<Shown> shown;                                         // of a protocol without an error

  /// Of every property that such a file has, in the order in which they are looked at.
  std::vector<Verdict> verdicts() const;
};

/// Who stands for a protocol or a set, today.
struct CheckedApproval {
  ApprovalState state;
  std::optional<Approval> approval;  // as written
  std::string text;
};

/// What there is to say about one path: a protocol (*.xml), a child file (*.json), or a folder of protocols.
struct CheckedPath {
  std::string path;
  std::vector<CheckedFile> files;
  FileTexts texts;
  std::optional<CheckedApproval> approval = {};  // not of a child file, nor of what cannot be read

  std::vector<Finding> findings() const;  // of all files, in file order
  bool to_the_end() const;
};

CheckedPath checked_path(const std::string& path);

/// Those of all paths, one after another.
std::vector<Finding> findings_of(const std::vector<CheckedPath>& all);

}  // namespace rushlight
