#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace rushlight {

/// A public key as 64 hexadecimal digits, small letters.
struct PublicKey {
  std::string hex;
  friend bool operator==(const PublicKey&, const PublicKey&) = default;
};

/// A pair of keys for signing (Ed25519, RFC 8032); whoever holds the secret one can approve. The secret is overwritten
/// when the pair goes out of scope.
struct KeyPair {
  PublicKey public_key;
  std::string secret_hex;  // 128 digits
  KeyPair() = default;
  KeyPair(PublicKey open, std::string secret) : public_key(std::move(open)), secret_hex(std::move(secret)) {}
  KeyPair(const KeyPair&) = default;
  KeyPair& operator=(const KeyPair&) = default;
  ~KeyPair();
};
KeyPair new_key_pair();

/// The pair that grows out of 32 secret bytes; empty for another number of bytes.
std::optional<KeyPair> key_pair_from_seed(std::string_view seed);

/// 64 hexadecimal digits, blanks around them allowed; empty for anything else.
std::optional<PublicKey> public_key_from_text(std::string_view text);

/// Six groups of five digits, to be read aloud: "48213 09377 ...". A hundred bits of SHA-256 over the words
/// "rushlight key" and a line feed, then the 32 bytes of the key: each group is five bytes, the first the highest,
/// modulo 100000. Two keys with one fingerprint cannot be looked for.
std::string fingerprint(const PublicKey& key);

/// Overwrites it, so that it is not left in memory.
void wipe(std::string& secret);

}  // namespace rushlight
