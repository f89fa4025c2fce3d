#include "cli/check_files.hpp"

#include <algorithm>
#include <filesystem>

#include "cli/assembled_set.hpp"
#include "cli/child_file.hpp"
#include "cli/read_file.hpp"
#include "cli/set_approval.hpp"
#include "cli/today.hpp"
#include "cli/trusted_keys.hpp"
#include "read/vetted_bytes.hpp"

namespace rushlight {
namespace {

CheckedPath checked_child(const std::string& path) {
  CheckedFile file{path, CheckedFile::Kind::child, false, {}, {}};
  ChildFile read = child_in(path);
  file.findings = std::move(read.findings);
  file.to_the_end = read.child.has_value();
  if (read.child && read.child->contacts.emergency.empty()) {
    const WrongUse missing{"no emergency number is in the child file", "add `emergency` to `contacts`"};
    file.findings.push_back(Finding{Severity::warning, Where{path, 0, 0, 0}, missing, {}});
  }
  return CheckedPath{path, {std::move(file)}, {{path, std::move(read.bytes)}}, {}};
}

ProtocolSet set_of_one(const std::string& path) {
  ProtocolSet set;
  FileBytes bytes = bytes_of_file(path, kMostBytes);
  if (auto* finding = std::get_if<Finding>(&bytes)) {
    set.findings.push_back(std::move(*finding));
    set.files.push_back(FileOfSet{path, false, {}});
  } else {
    add_protocol(set, path, std::get<std::string>(bytes));
  }
  return set;
}

/// Of a file alone it is only known whether it is what was approved, not whether its set is whole.
std::optional<CheckedApproval> approval_of_checked(const ProtocolSet& set) {
  if (set.texts.empty()) return std::nullopt;
  std::optional<Approval> approval;
  std::string beside;
  if (set.sealed) {
    approval = approval_of_set(*set.sealed);
  } else if (const auto& [path, bytes] = *set.texts.begin(); has_approval(bytes)) {
    approval = approval_in(bytes).value_or(Approval{});
    approval->standing = standing_of({std::filesystem::path(path).filename().string(), bytes}, trusted_keys());
    beside = " This file alone was looked at, not its set.";
  }
  return CheckedApproval{approval_state(approval, today()), approval,
                         approval_text(approval, today(), Language::en) + beside};
}

/// A file that somebody took away is missed by nothing else: what it would have refused is not looked at.
void say_what_is_missing(const std::string& folder, ProtocolSet& set) {
  if (set.protocols.empty() || !set.all_checked()) return;
  const auto lacks = [&](bool (*is_it)(const std::string&)) {
    return std::none_of(set.files.begin(), set.files.end(), [&](const FileOfSet& file) { return is_it(file.name); });
  };
  const auto say = [&](const char* what, const char* right) {
    set.findings.push_back(Finding{Severity::warning, Where{folder, 0, 0, 0}, WrongUse{what, right}, {}});
  };
  if (lacks(is_laws_file))
    say("no `safety.xml` stands in this set: no law of the clinic is looked at",
        "put the clinic's laws into the folder, or begin with those that `new-set` writes");
  if (lacks(is_examples_file))
    say("no `examples.xml` stands in this set: no night whose right answer is known is walked",
        "put the clinic's examples into the folder, or begin with those that `new-set` writes");
}

/// What is said about the folder itself, or about a file that is none of it, has an entry of its own in front.
CheckedPath by_file(const std::string& path, ProtocolSet set) {
  CheckedPath checked{path, {}, {}, approval_of_checked(set)};
  checked.texts = std::move(set.texts);
  for (const FileOfSet& file : set.files)
    checked.files.push_back(CheckedFile{file.name, CheckedFile::Kind::protocol, file.sense, {}, file.shown});
  for (Finding& finding : set.findings) {
    const auto owner = [&] {
      return std::find_if(checked.files.begin(), checked.files.end(),
                          [&](const CheckedFile& file) { return file.name == finding.where.file; });
    };
    if (owner() == checked.files.end())
      checked.files.insert(checked.files.begin(),
                           CheckedFile{finding.where.file, CheckedFile::Kind::folder, false, {}, {}});
    owner()->findings.push_back(std::move(finding));
  }
  // What examples come to follows from the other files.
  std::stable_partition(checked.files.begin(), checked.files.end(),
                        [](const CheckedFile& file) { return !is_examples_file(file.name); });
  return checked;
}

}  // namespace

std::vector<Verdict> CheckedFile::verdicts() const {
  std::vector<Property> properties{Property::readable};
  if (kind == Kind::protocol) properties = properties_of_protocols();
  if (kind == Kind::child) properties = properties_of_child_files();
  for (const Finding& finding : findings) {
    const Property property = property_of(finding.kind);
    if (std::find(properties.begin(), properties.end(), property) == properties.end()) properties.push_back(property);
  }
  const bool can_be_read = std::none_of(findings.begin(), findings.end(), [](const Finding& finding) {
    return finding.severity == Severity::error && property_of(finding.kind) == Property::readable;
  });
  std::vector<Verdict> verdicts;
  for (const Property property : properties) {
    const bool looked_at = property == Property::readable || (is_about_sense(property) ? to_the_end : can_be_read);
    Verdict verdict{looked_at ? Verdict::State::holds : Verdict::State::not_looked_at, property, {}};
    for (const Finding& finding : findings) {
      if (property_of(finding.kind) != property) continue;
      verdict.findings.push_back(&finding);
      // An example refuses nothing, and yet it did not come out.
      if (finding.severity == Severity::error || property == Property::examples_come_out)
        verdict.state = Verdict::State::broken;
    }
    verdicts.push_back(std::move(verdict));
  }
  return verdicts;
}

std::vector<Finding> CheckedPath::findings() const {
  std::vector<Finding> all;
  for (const CheckedFile& file : files) all.insert(all.end(), file.findings.begin(), file.findings.end());
  return all;
}

bool CheckedPath::to_the_end() const {
  return std::all_of(files.begin(), files.end(), [](const CheckedFile& file) { return file.to_the_end; });
}

CheckedPath checked_path(const std::string& path) {
  std::error_code error;
  if (std::filesystem::is_directory(path, error)) {
    ProtocolSet set = set_in_folder(path, "");
    say_what_is_missing(path, set);
    return by_file(path, std::move(set));
  }
  if (std::filesystem::path(path).extension() == ".json") return checked_child(path);
  return by_file(path, set_of_one(path));
}

std::vector<Finding> findings_of(const std::vector<CheckedPath>& all) {
  std::vector<Finding> findings;
  for (const CheckedPath& each : all) {
    for (const CheckedFile& file : each.files)
      findings.insert(findings.end(), file.findings.begin(), file.findings.end());
  }
  return findings;
}

}  // namespace rushlight
