#include "nights/walked_set.hpp"

#include <filesystem>
#include <map>
#include <tuple>

#include "episode/night.hpp"
#include "read/resolved_from_xml.hpp"
#include "seal/seal.hpp"

namespace rushlight::test {
namespace {

const KeyPair& clinic_keys() {
  static const KeyPair keys = new_key_pair();
  return keys;
}

/// The set of one file or of many, as the clinic of these tests approves it.
Approval approval_of(const std::vector<std::pair<std::string, std::string>>& files) {
  std::vector<NamedBytes> named;
  for (const auto& [path, bytes] : files) named.push_back({std::filesystem::path(path).filename(), bytes});
  return *signed_approval(named, "the clinic of this test", "clinic", *day_from_text("2026-01-01"),
                          *day_from_text("2027-01-01"), clinic_keys());
}

CheckedProtocol alone(const std::string& path, std::string bytes, const Approval* approval) {
  if (approval != nullptr) bytes = *with_approval(bytes, *approval);
  Read<Protocol> read = resolved_from_xml(bytes, path);
  if (!read.value) throw std::runtime_error(text_from_finding(read.findings.front(), std::nullopt));
  std::optional<Approval>& read_approval = read.value->parts.front().approval;
  const NamedBytes named{std::filesystem::path(path).filename(), bytes};
  if (read_approval) read_approval->standing = standing_of(named, {clinic_keys().public_key});
  Checked result = check(std::move(*read.value));
  if (!result.protocol) throw std::runtime_error(text_from_finding(result.findings.front(), std::nullopt));
  return *result.protocol;
}

}  // namespace

const CheckedProtocol& walked_protocol(const std::string& folder, const std::string& name, bool approved) {
  static std::map<std::tuple<std::string, std::string, bool>, CheckedProtocol> known;
  const auto key = std::tuple(folder, name, approved);
  if (const auto found = known.find(key); found != known.end()) return found->second;
  std::vector<std::pair<std::string, std::string>> files;
  for (const auto& entry : std::filesystem::directory_iterator(folder)) {
    if (entry.path().extension() == ".xml")
      files.emplace_back(entry.path().string(), text_of_file(entry.path().string()));
  }
  const Approval approval = approval_of(files);
  std::vector<CheckedProtocol> set;
  for (const auto& [path, bytes] : files) {
    const bool protocol = !path.ends_with("safety.xml") && !path.ends_with("examples.xml");
    if (protocol) set.push_back(alone(path, bytes, approved ? &approval : nullptr));
  }
  Checked whole = check_linked(set, name);
  if (!whole.protocol) throw std::runtime_error(text_from_finding(whole.findings.front(), std::nullopt));
  return known.emplace(key, *whole.protocol).first->second;
}

}  // namespace rushlight::test
