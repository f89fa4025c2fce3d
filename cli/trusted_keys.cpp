#include "cli/trusted_keys.hpp"

#include <unistd.h>

#include <algorithm>
#include <filesystem>

#include "cli/private_file.hpp"
#include "cli/read_file.hpp"
#include "cli/settings_folder.hpp"

namespace rushlight {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t kLongestKeyFile = 200;
constexpr std::size_t kLongestName = 60;
constexpr const char* kExtension = ".key";

bool only_owner_may_write(const fs::path& file) {
  std::error_code error;
  const fs::perms perms = fs::status(file, error).permissions();
  return !error && (perms & (fs::perms::group_write | fs::perms::others_write)) == fs::perms::none;
}

}  // namespace

std::string trusted_keys_folder() {
  const std::string folder = settings_folder();
  return folder.empty() ? folder : folder + "/keys";
}

TrustedKeys trusted_keys_and_others() {
  TrustedKeys all;
  const std::string folder = trusted_keys_folder();
  if (folder.empty()) return all;
  // Whoever may write the folder may put a key into it.
  const bool safe_folder = only_owner_may_write(folder);
  std::error_code error;
  for (fs::directory_iterator entry(folder, error), end; !error && entry != end; entry.increment(error)) {
    const fs::path& path = entry->path();
    if (path.extension() != kExtension) continue;
    const FileBytes bytes = bytes_of_file(path.string(), kLongestKeyFile);
    const auto* text = std::get_if<std::string>(&bytes);
    const auto key = text != nullptr ? public_key_from_text(*text) : std::nullopt;
    if (!key) {
      all.left_out.push_back({path.string(), UntrustedFile::Why::no_key});
    } else if (!safe_folder || !only_owner_may_write(path)) {
      all.left_out.push_back({path.string(), UntrustedFile::Why::others_may_write});
    } else {
      all.keys.push_back({path.stem().string(), path.string(), *key});
    }
  }
  std::sort(all.keys.begin(), all.keys.end(), [](const auto& one, const auto& two) { return one.name < two.name; });
  return all;
}

std::vector<PublicKey> trusted_keys() {
  std::vector<PublicKey> keys;
  for (const TrustedKey& trusted : trusted_keys_and_others().keys) keys.push_back(trusted.key);
  return keys;
}

std::optional<Finding> trust_key(const PublicKey& key, const std::string& name) {
  return write_private_file(trusted_keys_folder() + "/" + name + kExtension, key.hex + "\n");
}

bool forget_key(const TrustedKey& key) { return ::unlink(key.file.c_str()) == 0; }

bool can_name_a_key(const std::string& name) {
  constexpr const char* kLetters = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-";
  return !name.empty() && name.size() <= kLongestName && name.find_first_not_of(kLetters) == std::string::npos;
}

}  // namespace rushlight
