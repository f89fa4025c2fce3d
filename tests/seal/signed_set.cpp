#include "seal/signed_set.hpp"

#include <filesystem>
#include <fstream>
#include <iterator>
#include <stdexcept>

namespace rushlight::tests {

std::string tree_file(const std::string& path) {
  std::ifstream file(std::string(RUSHLIGHT_SOURCE_DIR "/") + path, std::ios::binary);
  if (!file) throw std::runtime_error("cannot read " + path);
  return {std::istreambuf_iterator<char>(file), {}};
}

Files tree_set(const std::string& folder) {
  Files files;
  for (const auto& entry : std::filesystem::directory_iterator(std::string(RUSHLIGHT_SOURCE_DIR "/") + folder)) {
    const std::string name = entry.path().filename().string();
    if (entry.path().extension() == ".xml") files[name] = tree_file(folder + "/" + name);
  }
  return files;
}

Files small_set() {
  return {{"low.xml", tree_file("tests/protocols/day-and-night/low.xml")},
          {"safety.xml", tree_file("protocols/reference/safety.xml")}};
}

const KeyPair& clinic() {
  static const KeyPair keys = new_key_pair();
  return keys;
}

Files approved(const Files& files, const KeyPair& keys, const std::string& until) {
  std::vector<NamedBytes> named;
  for (const auto& [name, bytes] : files) named.push_back({name, bytes});
  const auto approval = signed_approval(named, "Ana Rill & team", "consultant", *day_from_text("2026-03-01"),
                                        *day_from_text(until), keys);
  Files with;
  for (const auto& [name, bytes] : files) with[name] = *with_approval(bytes, *approval);
  return with;
}

SealedSet looked_at(const Files& files, const std::vector<PublicKey>& trusted) {
  std::vector<NamedBytes> named;
  for (const auto& [name, bytes] : files) named.push_back({name, bytes});
  return sealed_set(named, trusted);
}

bool holds(const Files& files) { return looked_at(files).state == SealedSet::State::good; }

Files changed(Files files, const std::string& name, const std::string& from, const std::string& to) {
  std::string& text = files.at(name);
  const std::size_t at = text.find(from);
  if (at == std::string::npos) throw std::runtime_error("not there: " + from);
  text.replace(at, from.size(), to);
  return files;
}

std::string element_in(const std::string& bytes) {
  constexpr std::string_view kEnd = "</approval>";
  const std::size_t at = bytes.find("<approval ");
  return bytes.substr(at, bytes.find(kEnd) + kEnd.size() - at);
}

}  // namespace rushlight::tests
