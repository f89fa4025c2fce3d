#include "cli/key_command.hpp"

#include <sys/stat.h>
#include <unistd.h>

#include <ostream>

#include "cli/passphrase.hpp"
#include "cli/plain_text.hpp"
#include "cli/private_file.hpp"
#include "cli/refusals.hpp"
#include "cli/secret_key_file.hpp"
#include "cli/settings_folder.hpp"
#include "cli/shell_word.hpp"

namespace rushlight {
namespace {

int no_home(std::ostream& err, const char* option) {
  err << "There is no home folder. Name the file: " << option << " FILE\n";
  return 2;
}

bool is_there_already(const std::string& path) {
  struct stat about {};
  return ::lstat(path.c_str(), &about) == 0;
}

std::string secret_file(const KeyWish& wish) { return wish.secret.empty() ? usual_secret_key_file() : wish.secret; }

}  // namespace

int key_new(const KeyWish& wish, std::ostream& out, std::ostream& err) {
  const std::string file = secret_file(wish);
  if (file.empty()) return no_home(err, "--out");
  // Told before a passphrase is thought up.
  if (is_there_already(file)) {
    return tell_refusal(
        err, cannot_do(file, "a key is there already and stays as it is: what it approved counts only with it",
                       "use it, or name another file: --out FILE"));
  }
  Passphrase passphrase = new_passphrase(wish.passphrase_file, out);
  if (const auto* finding = std::get_if<Finding>(&passphrase)) return tell_refusal(err, *finding);
  const KeyPair keys = new_key_pair();
  const std::optional<std::string> text = text_from_secret_key(keys, std::get<std::string>(passphrase));
  wipe(std::get<std::string>(passphrase));
  if (!text) {
    err << "There is not enough memory to close the key up: it takes 256 MB for a moment.\n";
    return 2;
  }
  if (const auto finding = write_private_file(file, *text)) return tell_refusal(err, *finding);
  out << "The clinic's secret key is in " << cleaned(file) << ".\n"
      << "Keep a copy of it under lock, and the passphrase somewhere else. Nobody can make it again.\n"
      << "public key   " << keys.public_key.hex << "\n"
      << "fingerprint  " << fingerprint(keys.public_key) << "\n"
      << "Next: rushlight key show --out clinic.key    makes the file that families get\n"
      << "      rushlight key trust clinic.key         trusts it at this machine too\n";
  return 0;
}

int key_show(const KeyWish& wish, std::ostream& out, std::ostream& err) {
  const std::string file = secret_file(wish);
  if (file.empty()) return no_home(err, "--key");
  if (const auto finding = no_secret_key(file)) return tell_no_use(err, *finding);
  const auto read = public_key_of(file);
  if (const auto* finding = std::get_if<Finding>(&read)) return tell_refusal(err, *finding);
  const PublicKey& key = std::get<PublicKey>(read);
  if (!wish.out.empty()) {
    if (const auto finding = write_public_file(wish.out, key.hex + "\n")) return tell_refusal(err, *finding);
  }
  out << "public key   " << key.hex << "\nfingerprint  " << fingerprint(key) << '\n';
  if (wish.out.empty()) return 0;
  out << "Give families " << cleaned(wish.out) << ". They type: rushlight key trust "
      << cleaned(shell_word(wish.out.substr(wish.out.rfind('/') + 1))) << "\n"
      << "Read them the fingerprint by another way: on the phone, or on paper.\n";
  return 0;
}

}  // namespace rushlight
