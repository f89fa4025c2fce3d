#include "cli/passphrase.hpp"

#include <unistd.h>

#include <ostream>

#include "cli/read_file.hpp"
#include "cli/refusals.hpp"
#include "cli/secret_line.hpp"
#include "seal/keys.hpp"

namespace rushlight {
namespace {

// Common practice, no source: four words of a list of some thousands, or as many letters as nobody guesses at 1 s a
// guess.
constexpr std::size_t kShortestPassphrase = 12;
constexpr std::size_t kLongestPassphraseFile = 4096;

Passphrase first_line_of(const std::string& file) {
  FileBytes bytes = bytes_of_file(file, kLongestPassphraseFile);
  if (auto* finding = std::get_if<Finding>(&bytes)) return std::move(*finding);
  std::string& text = std::get<std::string>(bytes);
  std::string line = text.substr(0, text.find('\n'));
  if (!line.empty() && line.back() == '\r') line.pop_back();
  wipe(text);
  return line;
}

Passphrase passphrase_asked(std::ostream& asks, const char* question) {
  const bool terminal = isatty(STDIN_FILENO) == 1;
  if (terminal) asks << question << std::flush;
  std::optional<std::string> line = secret_line_from_descriptor(STDIN_FILENO);
  if (line) return std::move(*line);
  return cannot_do("passphrase", "no passphrase was given",
                   "type it when it is asked for, or name a file that holds it: --passphrase-file FILE");
}

}  // namespace

Passphrase passphrase_for_key(const std::string& file, std::ostream& asks) {
  return file.empty() ? passphrase_asked(asks, "Passphrase of the clinic's key (it is not shown): ")
                      : first_line_of(file);
}

Passphrase new_passphrase(const std::string& file, std::ostream& asks) {
  Passphrase first = file.empty() ? passphrase_asked(asks, "A new passphrase, four words or more (it is not shown): ")
                                  : first_line_of(file);
  auto* typed = std::get_if<std::string>(&first);
  if (typed == nullptr) return first;
  if (typed->size() < kShortestPassphrase) {
    wipe(*typed);
    return cannot_do(file.empty() ? "passphrase" : file, "the passphrase is too short",
                     "take 12 letters or more: four words are good");
  }
  if (!file.empty() || isatty(STDIN_FILENO) != 1) return first;
  Passphrase second = passphrase_asked(asks, "The same again: ");
  auto* again = std::get_if<std::string>(&second);
  if (again == nullptr) return second;
  const bool same = *again == *typed;
  wipe(*again);
  if (same) return first;
  wipe(*typed);
  return cannot_do("passphrase", "the two are not the same", "start again: rushlight key new");
}

}  // namespace rushlight
