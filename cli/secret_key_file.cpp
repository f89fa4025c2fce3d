#include "cli/secret_key_file.hpp"

#include <sys/stat.h>

#include <cerrno>

#include "cli/passphrase.hpp"
#include "cli/read_file.hpp"
#include "cli/refusals.hpp"

namespace rushlight {
namespace {

constexpr std::size_t kLongestSecretFile = 1000;

Finding finding_of(const std::string& file, KeyRefusal refusal) {
  switch (refusal) {
    case KeyRefusal::no_key_file:
      break;
    case KeyRefusal::newer:
      return cannot_do(file, "this secret key was made by a later version of the program", "use that version");
    case KeyRefusal::wrong_passphrase:
      return cannot_do(file, "the passphrase does not open this key",
                       "type it again; look at capitals and at the layout of the keyboard");
    case KeyRefusal::other_public_key:
      return cannot_do(file, "the public key in this file is not the one of its secret key",
                       "take the file from a backup");
    case KeyRefusal::no_memory:
      return cannot_do(file, "there is not enough memory to open this key",
                       "close other programs: it takes 256 MB for a moment");
  }
  return cannot_do(file, "this is no secret key, or only a part of one",
                   "take the file from a backup, or make a key: rushlight key new");
}

std::variant<std::string, Finding> secret_text_of(const std::string& file) {
  struct stat about {};
  if (::stat(file.c_str(), &about) == 0 && S_ISREG(about.st_mode) && (about.st_mode & (S_IRWXG | S_IRWXO)) != 0)
    return cannot_do(file, "others on this machine may read this secret key", "close it to them: chmod 600 FILE");
  return bytes_of_file(file, kLongestSecretFile);
}

}  // namespace

std::optional<Finding> no_secret_key(const std::string& file) {
  if (file.empty())
    return cannot_do("--key", "there is no home folder to look for the clinic's key in", "name its file: --key FILE");
  struct stat about {};
  if (::stat(file.c_str(), &about) == 0 || errno != ENOENT) return std::nullopt;
  return cannot_do(file, "there is no secret key here",
                   "make the clinic's key once: rushlight key new, or name the file that holds it: --key FILE");
}

std::variant<KeyPair, Finding> opened_secret_key(const std::string& file, const std::string& passphrase_file,
                                                 std::ostream& asks) {
  auto text = secret_text_of(file);
  if (auto* finding = std::get_if<Finding>(&text)) return std::move(*finding);
  // Told before anything is typed.
  const auto beside = public_key_beside_secret(std::get<std::string>(text));
  if (const auto* refusal = std::get_if<KeyRefusal>(&beside)) return finding_of(file, *refusal);
  Passphrase passphrase = passphrase_for_key(passphrase_file, asks);
  if (auto* finding = std::get_if<Finding>(&passphrase)) return std::move(*finding);
  auto opened = secret_key_from_text(std::get<std::string>(text), std::get<std::string>(passphrase));
  wipe(std::get<std::string>(passphrase));
  if (const auto* refusal = std::get_if<KeyRefusal>(&opened)) return finding_of(file, *refusal);
  return std::get<KeyPair>(opened);
}

std::variant<PublicKey, Finding> public_key_of(const std::string& secret_key_file) {
  auto text = secret_text_of(secret_key_file);
  if (auto* finding = std::get_if<Finding>(&text)) return std::move(*finding);
  const auto key = public_key_beside_secret(std::get<std::string>(text));
  if (const auto* refusal = std::get_if<KeyRefusal>(&key)) return finding_of(secret_key_file, *refusal);
  return std::get<PublicKey>(key);
}

}  // namespace rushlight
