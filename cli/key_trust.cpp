#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <ostream>

#include "cli/key_command.hpp"
#include "cli/plain_text.hpp"
#include "cli/read_file.hpp"
#include "cli/refusals.hpp"
#include "cli/say.hpp"
#include "cli/secret_line.hpp"
#include "cli/trusted_keys.hpp"
#include "measure/written.hpp"
#include "wire/json_writer.hpp"

namespace rushlight {
namespace {

constexpr Both kKey{"public key   {1}", "clave pública  {1}"};
constexpr Both kFingerprint{"fingerprint  {1}", "huella         {1}"};
constexpr Both kCompare{"Ask your clinic to read its fingerprint to you, number by number. Is it the same? y or n: ",
                        "Pida a su clínica que le lea su huella, número por número. ¿Es igual? s o n: "};
constexpr Both kNotTrusted{"Nothing was changed. Do not use a key that your clinic does not read the same.",
                           "No cambió nada. No use una clave que su clínica no lea igual."};
constexpr Both kTrusted{"From now on this machine trusts what this key approves. Its name here: {1}",
                        "Desde ahora este equipo confía en lo que apruebe esta clave. Su nombre aquí: {1}"};
constexpr Both kTrustedAlready{"This machine trusts this key already. Its name here: {1}",
                               "Este equipo ya confía en esta clave. Su nombre aquí: {1}"};
constexpr Both kNoKeys{
    "This machine trusts no key yet. To trust your clinic's: rushlight key trust FILE",
    "Este equipo todavía no confía en ninguna clave. Para confiar en la de su clínica: rushlight key trust ARCHIVO"};
constexpr Both kOthersMayWrite{"{1}: not trusted, since others on this machine may write it",
                               "{1}: no se confía en ella, porque otros en este equipo pueden escribirla"};
constexpr Both kNoKey{"{1}: this is no public key", "{1}: no es una clave pública"};
constexpr Both kSureToForget{"What this key approved no longer counts as approved here. Forget it? y or n: ",
                             "Lo que aprobó esta clave ya no valdrá como aprobado aquí. ¿La olvido? s o n: "};
constexpr Both kStays{"Nothing was changed.", "No cambió nada."};
constexpr Both kForgotten{"This machine no longer trusts the key {1}.", "Este equipo ya no confía en la clave {1}."};

bool is_agreed(std::ostream& out, const std::string& question) {
  out << question << std::flush;
  const std::optional<std::string> line = line_from_descriptor(STDIN_FILENO);
  if (isatty(STDIN_FILENO) != 1) out << '\n';
  if (!line) return false;
  const std::string answer(trimmed(*line));
  return answer == "y" || answer == "yes" || answer == "Y" || answer == "s" || answer == "S" || answer == "si" ||
         answer == "sí";
}

std::variant<PublicKey, Finding> key_named(const std::string& word) {
  if (const auto key = public_key_from_text(word)) return *key;
  constexpr std::size_t kLongest = 1000;
  FileBytes bytes = bytes_of_file(word, kLongest);
  if (auto* finding = std::get_if<Finding>(&bytes)) return std::move(*finding);
  const std::string& text = std::get<std::string>(bytes);
  if (const auto key = public_key_from_text(text)) return *key;
  const bool secret = text.starts_with("rushlight secret key");
  return secret ? whole_error(word, WrongUse{"this is a secret key: it stays at the clinic",
                                             "trust the public one: rushlight key show --out FILE writes it"})
                : whole_error(word,
                              WrongUse{"this is no public key", "a public key is one line of 64 hexadecimal digits"});
}

std::string name_for(const KeyWish& wish, const PublicKey& key) {
  if (!wish.name.empty()) return wish.name;
  const std::string stem = std::filesystem::path(wish.key).stem().string();
  constexpr std::size_t kHexShown = 8;
  const bool good = can_name_a_key(stem) && !public_key_from_text(wish.key);
  return good ? stem : "key-" + key.hex.substr(0, kHexShown);
}

void print_key(std::ostream& out, const PublicKey& key, Language language) {
  out << say(kKey, language, key.hex) << '\n' << say(kFingerprint, language, fingerprint(key)) << '\n';
}

}  // namespace

int key_trust(const KeyWish& wish, std::ostream& out, std::ostream& err) {
  if (trusted_keys_folder().empty()) {
    err << "There is no home folder to keep trusted keys in.\n";
    return 2;
  }
  const auto read = key_named(wish.key);
  if (const auto* finding = std::get_if<Finding>(&read)) return tell_refusal(err, *finding);
  const PublicKey& key = std::get<PublicKey>(read);
  const std::string name = name_for(wish, key);
  if (!can_name_a_key(name)) {
    const WrongUse bad{"`" + name + "` cannot be the name of a key", "letters, digits and hyphens, at most 60"};
    return tell_refusal(err, whole_error("--name", bad));
  }
  for (const TrustedKey& trusted : trusted_keys_and_others().keys) {
    if (trusted.key == key) {
      out << say(kTrustedAlready, wish.language, cleaned(trusted.name)) << '\n';
      return 0;
    }
    if (trusted.name == name) {
      const WrongUse taken{"another key has the name `" + name + "` here", "name this one otherwise: --name NAME"};
      return tell_refusal(err, whole_error("--name", taken));
    }
  }
  print_key(out, key, wish.language);
  if (!wish.yes && !is_agreed(out, say(kCompare, wish.language))) {
    out << say(kNotTrusted, wish.language) << '\n';
    return 1;
  }
  if (const auto finding = trust_key(key, name)) return tell_refusal(err, *finding);
  out << say(kTrusted, wish.language, name) << '\n';
  return 0;
}

int key_list(const KeyWish& wish, std::ostream& out, std::ostream& err) {
  const TrustedKeys all = trusted_keys_and_others();
  if (wish.json) {
    JsonWriter json;
    json.begin_object().key("folder").text(trusted_keys_folder()).key("keys").begin_list();
    for (const TrustedKey& trusted : all.keys) {
      json.begin_object().key("name").text(trusted.name).key("key").text(trusted.key.hex);
      json.key("fingerprint").text(fingerprint(trusted.key)).key("file").text(trusted.file).end_object();
    }
    json.end_list().key("left_out").begin_list();
    for (const UntrustedFile& file : all.left_out) json.text(file.file);
    out << json.end_list().end_object().json() << '\n';
    return 0;
  }
  for (const TrustedKey& trusted : all.keys)
    out << fingerprint(trusted.key) << "  " << cleaned(trusted.name) << "  " << trusted.key.hex << '\n';
  for (const UntrustedFile& file : all.left_out) {
    const bool open = file.why == UntrustedFile::Why::others_may_write;
    err << say(open ? kOthersMayWrite : kNoKey, wish.language, cleaned(file.file)) << '\n';
  }
  if (all.keys.empty()) out << say(kNoKeys, wish.language) << '\n';
  return 0;
}

int key_forget(const KeyWish& wish, std::ostream& out, std::ostream& err) {
  const TrustedKeys all = trusted_keys_and_others();
  const auto hex = public_key_from_text(wish.key);
  const auto found = std::find_if(all.keys.begin(), all.keys.end(), [&](const TrustedKey& trusted) {
    return trusted.name == wish.key || (hex && trusted.key == *hex);
  });
  if (found == all.keys.end()) {
    std::vector<std::string> names;
    for (const TrustedKey& trusted : all.keys) names.push_back(trusted.name);
    return tell_refusal(err, whole_error("key forget", UnknownId{wish.key, "trusted key", names}));
  }
  print_key(out, found->key, wish.language);
  if (!wish.yes && !is_agreed(out, say(kSureToForget, wish.language))) {
    out << say(kStays, wish.language) << '\n';
    return 1;
  }
  if (!forget_key(*found)) return tell_refusal(err, whole_error(found->file, NotWritten{"it cannot be deleted", ""}));
  out << say(kForgotten, wish.language, cleaned(found->name)) << '\n';
  return 0;
}

}  // namespace rushlight
