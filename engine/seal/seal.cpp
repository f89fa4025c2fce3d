#include "seal/seal.hpp"

#include <algorithm>
#include <array>
#include <map>

#include "seal/hex.hpp"
#include "seal/sum.hpp"

namespace rushlight {
namespace {

using FileState = Sealed::State;
using SetState = SealedSet::State;

bool same_but_for_standing(Approval one, Approval two) {
  one.standing = two.standing = Standing::unseen;
  return one == two;
}

bool signature_fits(const Approval& approval) {
  const auto open = bytes_from_hex(approval.key, crypto_sign_PUBLICKEYBYTES);
  const auto signature = bytes_from_hex(approval.signature, crypto_sign_BYTES);
  if (!open || !signature || !library_is_ready()) return false;
  // Capital digits would be the same numbers in other bytes, and nobody signed those.
  if (hex_from(open->data(), open->size()) != approval.key) return false;
  if (hex_from(signature->data(), signature->size()) != approval.signature) return false;
  const std::string said = statement(approval);
  return crypto_sign_verify_detached(signature->data(), as_bytes(said), said.size(), open->data()) == 0;
}

const ApprovedFile* named(const Approval& approval, const std::string& name) {
  const auto found = std::find_if(approval.files.begin(), approval.files.end(),
                                  [&](const ApprovedFile& file) { return file.name == name; });
  return found == approval.files.end() ? nullptr : &*found;
}

bool names_these_bytes(const Approval& approval, const NamedBytes& file) {
  const ApprovedFile* approved = named(approval, file.name);
  return approved != nullptr && approved->sha256 == sha256_of(without_approval(file.bytes));
}

bool is_trusted(const Approval& approval, const std::vector<PublicKey>& trusted) {
  const auto key = public_key_from_text(approval.key);
  return key && std::find(trusted.begin(), trusted.end(), *key) != trusted.end();
}

/// The approval that most files hold; of two that are held by as many, the one that is met first.
std::optional<Approval> approval_of_most(const std::vector<Sealed>& files) {
  std::optional<Approval> most;
  std::ptrdiff_t held_by = 0;
  for (const Sealed& file : files) {
    if (!file.approval) continue;
    const auto count = std::count_if(files.begin(), files.end(), [&](const Sealed& other) {
      return other.approval && same_but_for_standing(*other.approval, *file.approval);
    });
    if (count > held_by) {
      most = file.approval;
      held_by = count;
    }
  }
  return most;
}

FileState state_of(const Sealed& file, const NamedBytes& bytes, const Approval& approval) {
  if (!has_approval(bytes.bytes)) return named(approval, file.name) == nullptr ? FileState::unknown : FileState::none;
  if (!file.approval) return FileState::changed;
  if (!same_but_for_standing(*file.approval, approval)) return FileState::other;
  if (named(approval, file.name) == nullptr) return FileState::unknown;
  return names_these_bytes(approval, bytes) ? FileState::fits : FileState::changed;
}

}  // namespace

std::string statement(const Approval& approval) {
  std::string text = "rushlight approval 2\n" + approval.by + "\n" + approval.role + "\n" + text_from_day(approval.on) +
                     "\n" + text_from_day(approval.until) + "\n";
  for (const ApprovedFile& file : approval.files) text += file.sha256 + " " + file.name + "\n";
  return text;
}

std::optional<Approval> signed_approval(const std::vector<NamedBytes>& files, const std::string& by,
                                        const std::string& role, const Day& on, const Day& until, const KeyPair& keys) {
  auto secret = bytes_from_hex(keys.secret_hex, crypto_sign_SECRETKEYBYTES);
  if (!secret || !can_be_said(by) || !can_be_said(role) || !library_is_ready()) return std::nullopt;
  Approval approval{by, role, on, until, {}, keys.public_key.hex, "", Standing::unseen};
  for (const NamedBytes& file : files) {
    if (!can_be_said(file.name)) return std::nullopt;
    approval.files.push_back(ApprovedFile{file.name, sha256_of(without_approval(file.bytes))});
  }
  std::sort(approval.files.begin(), approval.files.end(),
            [](const ApprovedFile& one, const ApprovedFile& two) { return one.name < two.name; });
  const std::string said = statement(approval);
  std::array<unsigned char, crypto_sign_BYTES> signature{};
  crypto_sign_detached(signature.data(), nullptr, as_bytes(said), said.size(), secret->data());
  sodium_memzero(secret->data(), secret->size());
  approval.signature = hex_from(signature.data(), signature.size());
  return approval;
}

const Sealed* SealedSet::find(const std::string& name) const {
  const auto found = std::find_if(files.begin(), files.end(), [&](const Sealed& file) { return file.name == name; });
  return found == files.end() ? nullptr : &*found;
}

SealedSet sealed_set(const std::vector<NamedBytes>& files, const std::vector<PublicKey>& trusted) {
  SealedSet set;
  std::map<std::string, std::string_view> bytes;
  for (const NamedBytes& file : files) {
    set.files.push_back(Sealed{file.name, FileState::none, approval_in(file.bytes)});
    bytes[file.name] = file.bytes;
  }
  const auto any_has_one =
      std::any_of(files.begin(), files.end(), [](const auto& file) { return has_approval(file.bytes); });
  if (!any_has_one) return set;
  set.state = SetState::changed;
  set.approval = approval_of_most(set.files);
  // One that the program did not write is no approval, and the file was approved by nobody or changed since.
  const Approval approval = set.approval.value_or(Approval{});
  for (Sealed& file : set.files) file.state = state_of(file, NamedBytes{file.name, bytes[file.name]}, approval);
  for (const ApprovedFile& file : approval.files) {
    if (set.find(file.name) == nullptr) set.files.push_back(Sealed{file.name, FileState::missing, std::nullopt});
  }
  std::sort(set.files.begin(), set.files.end(),
            [](const Sealed& one, const Sealed& two) { return one.name < two.name; });
  const bool all_fit =
      std::all_of(set.files.begin(), set.files.end(), [](const Sealed& file) { return file.state == FileState::fits; });
  const bool fits = all_fit && set.approval && bytes.size() == files.size() && signature_fits(*set.approval);
  if (fits) set.state = is_trusted(*set.approval, trusted) ? SetState::good : SetState::untrusted;
  if (all_fit && !fits) {
    for (Sealed& file : set.files)
      file.state = FileState::changed;  // the element itself was changed, in all of them alike
  }
  if (set.approval) {
    set.approval->standing = set.state == SetState::good        ? Standing::good
                             : set.state == SetState::untrusted ? Standing::untrusted
                                                                : Standing::changed;
  }
  return set;
}

Standing standing_of(const NamedBytes& file, const std::vector<PublicKey>& trusted) {
  const std::optional<Approval> approval = approval_in(file.bytes);
  if (!approval || !names_these_bytes(*approval, file) || !signature_fits(*approval)) return Standing::changed;
  return is_trusted(*approval, trusted) ? Standing::good : Standing::untrusted;
}

}  // namespace rushlight
