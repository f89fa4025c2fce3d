#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "protocol/protocol.hpp"

namespace rushlight {

/// A public key as 64 hexadecimal digits.
struct PublicKey {
  std::string hex;
  friend bool operator==(const PublicKey&, const PublicKey&) = default;
};

/// A pair of keys for signing; whoever holds the secret one can approve.
struct KeyPair {
  PublicKey public_key;
  std::string secret_hex;  // 128 digits
};
KeyPair new_key_pair();

/// The bytes of a protocol with its approval left out: what an approval stands for. Any other change of the file changes them.
std::string without_approval(std::string_view bytes);

/// The file with an approval put in right behind the opening tag of its root; an approval that was there is replaced.
/// Empty when there is no such tag, or the secret key is none.
std::optional<std::string> with_approval(std::string_view bytes, const std::string& by, const Day& on, const Day& until,
                                         const KeyPair& keys);

/// True when the signature fits who, when, until when and every other byte of the file, under a key that is trusted here.
/// Ed25519 (RFC 8032), by libsodium.
bool is_approved(const Approval& approval, std::string_view bytes, const std::vector<PublicKey>& trusted);

/// 64 hexadecimal digits, blanks around them allowed; empty for anything else.
std::optional<PublicKey> public_key_from_text(std::string_view text);

}  // namespace rushlight
