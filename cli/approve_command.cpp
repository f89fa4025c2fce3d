#include "cli/approve_command.hpp"

#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <ostream>

#include "cli/approval_list.hpp"
#include "cli/check_files.hpp"
#include "cli/plain_text.hpp"
#include "cli/protocol_set.hpp"
#include "cli/refusals.hpp"
#include "cli/replace_files.hpp"
#include "cli/secret_key_file.hpp"
#include "cli/secret_line.hpp"
#include "cli/settings_folder.hpp"
#include "cli/shell_word.hpp"
#include "cli/today.hpp"
#include "cli/trusted_keys.hpp"
#include "measure/written.hpp"
#include "read/examples_from_xml.hpp"
#include "read/resolved_from_xml.hpp"
#include "read/safety_from_xml.hpp"

namespace rushlight {
namespace {

// Common practice, no source: guidance on care is looked through again every few years, and a key can get lost
// meanwhile.
constexpr std::chrono::years kLongestApproval{3};
constexpr std::size_t kLongestWords = 100;
constexpr const char* kTheWord = "approve";

/// The same day so many years later; of 29 February the day before 1 March.
Day years_after(const Day& day, std::chrono::years years) {
  const Day later = day + years;
  return later.ok() ? later : Day{later.year() / later.month() / std::chrono::last};
}

std::optional<Finding> bad_words(const char* option, const std::string& words) {
  if (!can_be_said(words))
    return cannot_do(option, "nothing can be read there", "write it in plain words, without blanks at the ends");
  if (words.size() > kLongestWords)
    return cannot_do(option, "this is too long to stand on a screen", "at most 100 letters");
  return std::nullopt;
}

std::variant<Day, Finding> last_day(const std::string& text, const Day& from) {
  const std::optional<Day> until = day_from_text(text);
  if (!until) return whole_error("--until", BadDate{"last day of an approval", text});
  if (*until < from) return cannot_do("--until", text + " is over", "name a day from " + text_from_day(from) + " on");
  const Day latest = years_after(from, kLongestApproval);
  if (*until > latest) {
    return cannot_do("--until", text + " is more than 3 years away",
                     "name a day up to " + text_from_day(latest) + ", and look through the set again before it");
  }
  return *until;
}

std::vector<NamedBytes> named_files(const ProtocolSet& set) {
  std::vector<NamedBytes> files;
  for (const auto& [path, bytes] : set.texts) files.push_back({std::filesystem::path(path).filename().string(), bytes});
  return files;
}

/// The files as they are to be written, read once more by everything that will read them: nothing is written that would
/// not be accepted as approved.
std::variant<std::vector<Replacement>, Finding> approved_files(const ProtocolSet& set, const Approval& approval) {
  std::vector<Replacement> replacements;
  std::vector<NamedBytes> named;
  for (const auto& [path, bytes] : set.texts) {
    auto with = with_approval(bytes, approval);
    if (!with) return cannot_do(path, "an approval has no place in this file", "look at its outermost element");
    replacements.push_back(Replacement{path, bytes, std::move(*with)});
  }
  for (const Replacement& file : replacements) {
    const std::string name = std::filesystem::path(file.path).filename().string();
    named.push_back({name, file.after});
    const Read<Protocol> protocol = resolved_from_xml(file.after, file.path);
    const Read<SafetyDraft> laws = safety_from_xml(file.after, file.path);
    const bool said = protocol.value && protocol.value->parts.front().approval == approval;
    const Read<ExamplesDraft> examples = examples_from_xml(file.after, file.path);
    const bool beside = (laws.value && !has_error(laws.findings)) || (examples.value && !has_error(examples.findings));
    const bool read = said || (!protocol.value && beside);
    if (!read)
      return cannot_do(file.path, "with this approval the file could not be read",
                       "use plain words for --as and --role");
  }
  const SealedSet sealed = sealed_set(named, {PublicKey{approval.key}});
  if (sealed.state != SealedSet::State::good)
    return cannot_do(replacements.front().path, "the signed files do not stand the test",
                     "nothing was written; check the set");
  return replacements;
}

struct Signed {
  Approval approval;
  std::vector<Replacement> files;
};

std::variant<Signed, Finding> files_to_write(const ProtocolSet& set, const ApproveWish& wish, const Day& from,
                                             const Day& until, const KeyPair& keys) {
  std::optional<Approval> approval = signed_approval(named_files(set), wish.by, wish.role, from, until, keys);
  if (!approval) {
    return cannot_do(wish.set, "a file of this set has a name that cannot be signed",
                     "name its files in plain letters, like low.xml");
  }
  auto files = approved_files(set, *approval);
  if (auto* finding = std::get_if<Finding>(&files)) return std::move(*finding);
  return Signed{std::move(*approval), std::get<std::vector<Replacement>>(std::move(files))};
}

int tell_not_approved(std::ostream& err, const Finding& finding) {
  err << "Nothing was approved.\n";
  return tell_refusal(err, finding);
}

bool is_word_typed(std::ostream& out) {
  out << "You stand for all of this. To sign it, type the word approve: " << std::flush;
  const std::optional<std::string> typed = line_from_descriptor(STDIN_FILENO);
  if (isatty(STDIN_FILENO) != 1) out << '\n';
  return typed && trimmed(*typed) == kTheWord;
}

int refuse_errors(const ApproveWish& wish, const ProtocolSet& set, std::ostream& err) {
  const auto first = std::find_if(set.findings.begin(), set.findings.end(),
                                  [](const Finding& finding) { return finding.severity == Severity::error; });
  const int status = tell_refusal(err, *first);
  const std::size_t errors = counted(set.findings).errors;
  err << errors << (errors == 1 ? " error" : " errors")
      << " in all. A set with an error is not approved. To see them: rushlight check " << cleaned(shell_word(wish.set))
      << '\n';
  return status;
}

void tell_what_was_done(const std::vector<Replacement>& files, const Approval& approval, std::ostream& out) {
  out << "Approved by " << cleaned(approval.by) << " (" << cleaned(approval.role) << "), from "
      << text_from_day(approval.on) << " until " << text_from_day(approval.until) << ":\n";
  for (const Replacement& file : files) out << "  " << cleaned(file.path) << '\n';
  const PublicKey key{approval.key};
  out << "fingerprint of the key: " << fingerprint(key) << '\n';
  const std::vector<PublicKey> trusted = trusted_keys();
  if (std::find(trusted.begin(), trusted.end(), key) == trusted.end())
    out << "This machine does not trust that key yet: rushlight key trust " << key.hex << '\n';
}

}  // namespace

int approve_command(const ApproveWish& wish, std::ostream& out, std::ostream& err) {
  const Day from = today();
  for (const auto& [option, words] : {std::pair{"--as", &wish.by}, std::pair{"--role", &wish.role}}) {
    if (const auto finding = bad_words(option, *words)) return tell_refusal(err, *finding);
  }
  const auto until = last_day(wish.until, from);
  if (const auto* finding = std::get_if<Finding>(&until)) return tell_refusal(err, *finding);

  // Whatever would stop the signing is told before anybody reads the list.
  const std::string key_file = wish.key.empty() ? usual_secret_key_file() : wish.key;
  if (const auto finding = no_secret_key(key_file)) return tell_no_use(err, *finding);
  const auto beside = public_key_of(key_file);
  if (const auto* finding = std::get_if<Finding>(&beside)) return tell_refusal(err, *finding);
  std::optional<KeyPair> keys;
  const auto open_key = [&]() -> std::optional<Finding> {
    auto opened = opened_secret_key(key_file, wish.passphrase_file, out);
    if (auto* finding = std::get_if<Finding>(&opened)) return std::move(*finding);
    keys = std::get<KeyPair>(std::move(opened));
    return std::nullopt;
  };
  const ProtocolSet set = set_in_folder(wish.set, "");
  if (has_error(set.findings)) return refuse_errors(wish, set, err);
  const auto files_signed_with = [&](const KeyPair& pair) {
    return files_to_write(set, wish, from, std::get<Day>(until), pair);
  };
  const auto rehearsed = files_signed_with(new_key_pair());
  if (const auto* finding = std::get_if<Finding>(&rehearsed)) return tell_refusal(err, *finding);
  if (const auto finding = why_not_replaced(std::get<Signed>(rehearsed).files)) return tell_not_approved(err, *finding);
  if (!wish.passphrase_file.empty()) {
    if (const auto finding = open_key()) return tell_refusal(err, *finding);
  }

  const Counts counts = counted(set.findings);
  out << cleaned(wish.set) << ": " << set.texts.size() << " files, 0 errors, " << counts.warnings << " warnings\n\n";
  print_what_is_approved(set, out);
  out << "By " << cleaned(wish.by) << " (" << cleaned(wish.role) << "), from " << text_from_day(from) << " until "
      << text_from_day(std::get<Day>(until)) << ".\n"
      << "A check shows that a set is consistent, not that it is right for a child: that is what you stand for.\n";
  // Nobody stands for a list that was cut off.
  if (!out.flush()) {
    err << "Nothing was signed: what you would stand for could not be shown to its end.\n";
    return 2;
  }
  if (!wish.yes && !is_word_typed(out)) {
    out << "Nothing was signed.\n";
    return 1;
  }
  if (!keys) {
    if (const auto finding = open_key()) return tell_refusal(err, *finding);
  }
  const auto made = files_signed_with(*keys);
  if (const auto* finding = std::get_if<Finding>(&made)) return tell_refusal(err, *finding);
  const auto& [approval, files] = std::get<Signed>(made);
  if (const auto finding = replace_files(files)) return tell_not_approved(err, *finding);
  tell_what_was_done(files, approval, out);
  return 0;
}

}  // namespace rushlight
