#include "cli/trusted_keys.hpp"

#include <cstdlib>
#include <filesystem>

#include "cli/read_file.hpp"

namespace rushlight {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t kLongestKeyFile = 200;

std::string absolute_path_in(const char* variable) {
  const char* value = std::getenv(variable);
  return value != nullptr && value[0] == '/' ? value : "";
}

bool only_owner_may_write(const fs::path& file) {
  std::error_code error;
  const fs::perms perms = fs::status(file, error).permissions();
  return !error && (perms & (fs::perms::group_write | fs::perms::others_write)) == fs::perms::none;
}

}  // namespace

std::string trusted_keys_folder() {
  const std::string config = absolute_path_in("XDG_CONFIG_HOME");
  if (!config.empty()) return config + "/rushlight/keys";
  const std::string home = absolute_path_in("HOME");
  return home.empty() ? home : home + "/.config/rushlight/keys";
}

std::vector<PublicKey> trusted_keys() {
  std::vector<PublicKey> keys;
  const std::string folder = trusted_keys_folder();
  if (folder.empty()) return keys;
  std::error_code error;
  for (fs::directory_iterator entry(folder, error), end; !error && entry != end; entry.increment(error)) {
    if (entry->path().extension() != ".key" || !only_owner_may_write(entry->path())) continue;
    const FileBytes bytes = bytes_of_file(entry->path().string(), kLongestKeyFile);
    const auto* text = std::get_if<std::string>(&bytes);
    const auto key = text != nullptr ? public_key_from_text(*text) : std::nullopt;
    if (key) keys.push_back(*key);
  }
  return keys;
}

}  // namespace rushlight
