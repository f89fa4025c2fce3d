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

CheckedProtocol alone(const std::string& path, bool approved) {
  std::string bytes = text_of_file(path);
  if (approved)
    bytes = *with_approval(bytes, "the clinic of this test", *day_from_text("2026-01-01"), *day_from_text("2027-01-01"),
                           clinic_keys());
  Read<Protocol> read = resolved_from_xml(bytes, path);
  if (!read.value) throw std::runtime_error(text_from_finding(read.findings.front(), std::nullopt));
  std::optional<Approval>& approval = read.value->parts.front().approval;
  if (approval) approval->verified = is_approved(*approval, bytes, {clinic_keys().public_key});
  Checked result = check(std::move(*read.value));
  if (!result.protocol) throw std::runtime_error(text_from_finding(result.findings.front(), std::nullopt));
  return *result.protocol;
}

}  // namespace

const CheckedProtocol& walked_protocol(const std::string& folder, const std::string& name, bool approved) {
  static std::map<std::tuple<std::string, std::string, bool>, CheckedProtocol> known;
  const auto key = std::tuple(folder, name, approved);
  if (const auto found = known.find(key); found != known.end()) return found->second;
  std::vector<CheckedProtocol> set;
  for (const auto& entry : std::filesystem::directory_iterator(folder)) {
    const bool protocol = entry.path().extension() == ".xml" && entry.path().filename() != "safety.xml";
    if (protocol) set.push_back(alone(entry.path().string(), approved));
  }
  Checked whole = check_linked(set, name);
  if (!whole.protocol) throw std::runtime_error(text_from_finding(whole.findings.front(), std::nullopt));
  return known.emplace(key, *whole.protocol).first->second;
}

}  // namespace rushlight::test
