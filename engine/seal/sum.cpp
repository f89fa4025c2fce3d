#include "seal/sum.hpp"

#include <sodium.h>

#include <array>

#include "seal/hex.hpp"

namespace rushlight {
namespace {

using Hash = std::array<unsigned char, crypto_hash_sha256_BYTES>;

Hash hash_of(std::string_view bytes) {
  Hash hash{};
  crypto_hash_sha256(hash.data(), as_bytes(bytes), bytes.size());
  return hash;
}

}  // namespace

std::string sha256_of(std::string_view bytes) {
  const Hash hash = hash_of(bytes);
  return hex_from(hash.data(), hash.size());
}

std::string sha256_in_base64(std::string_view bytes) {
  const Hash hash = hash_of(bytes);
  std::string text(sodium_base64_ENCODED_LEN(hash.size(), sodium_base64_VARIANT_ORIGINAL), '\0');
  sodium_bin2base64(text.data(), text.size(), hash.data(), hash.size(), sodium_base64_VARIANT_ORIGINAL);
  text.pop_back();  // the NUL of C
  return text;
}

}  // namespace rushlight
