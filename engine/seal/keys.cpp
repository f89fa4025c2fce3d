#include "seal/keys.hpp"

#include <array>

#include "seal/hex.hpp"

namespace rushlight {

KeyPair::~KeyPair() { wipe(secret_hex); }

void wipe(std::string& secret) {
  if (!secret.empty()) sodium_memzero(secret.data(), secret.size());
  secret.clear();
}

KeyPair new_key_pair() {
  if (!library_is_ready()) return {};
  std::array<unsigned char, crypto_sign_PUBLICKEYBYTES> open{};
  std::array<unsigned char, crypto_sign_SECRETKEYBYTES> secret{};
  crypto_sign_keypair(open.data(), secret.data());
  KeyPair pair{PublicKey{hex_from(open.data(), open.size())}, hex_from(secret.data(), secret.size())};
  sodium_memzero(secret.data(), secret.size());
  return pair;
}

std::optional<KeyPair> key_pair_from_seed(std::string_view seed) {
  if (seed.size() != crypto_sign_SEEDBYTES || !library_is_ready()) return std::nullopt;
  std::array<unsigned char, crypto_sign_PUBLICKEYBYTES> open{};
  std::array<unsigned char, crypto_sign_SECRETKEYBYTES> secret{};
  crypto_sign_seed_keypair(open.data(), secret.data(), as_bytes(seed));
  KeyPair pair{PublicKey{hex_from(open.data(), open.size())}, hex_from(secret.data(), secret.size())};
  sodium_memzero(secret.data(), secret.size());
  return pair;
}

std::optional<PublicKey> public_key_from_text(std::string_view text) {
  const std::size_t first = text.find_first_not_of(" \t\r\n");
  if (first == std::string_view::npos) return std::nullopt;
  const std::size_t last = text.find_last_not_of(" \t\r\n");
  const auto bytes = bytes_from_hex(text.substr(first, last - first + 1), crypto_sign_PUBLICKEYBYTES);
  if (!bytes) return std::nullopt;
  return PublicKey{hex_from(bytes->data(), bytes->size())};
}

std::string fingerprint(const PublicKey& key) {
  const auto bytes = bytes_from_hex(key.hex, crypto_sign_PUBLICKEYBYTES);
  if (!bytes || !library_is_ready()) return "";
  const std::string hashed = "rushlight key\n" + std::string(bytes->begin(), bytes->end());
  std::array<unsigned char, crypto_hash_sha256_BYTES> hash{};
  crypto_hash_sha256(hash.data(), as_bytes(hashed), hashed.size());
  constexpr std::size_t kGroups = 6, kBytesEach = 5;
  constexpr std::uint64_t kPerGroup = 100000;
  std::string text;
  for (std::size_t group = 0; group < kGroups; ++group) {
    std::uint64_t number = 0;
    for (std::size_t at = 0; at < kBytesEach; ++at) number = number * 256 + hash[group * kBytesEach + at];
    const std::string digits = std::to_string(number % kPerGroup);
    if (group > 0) text += ' ';
    text += std::string(kBytesEach - digits.size(), '0') + digits;
  }
  return text;
}

}  // namespace rushlight
