#include "seal/secret_key.hpp"

#include <array>

#include "seal/hex.hpp"

namespace rushlight {
namespace {

constexpr std::string_view kAnyVersion = "rushlight secret key ";
constexpr std::string_view kFirstLine = "rushlight secret key 1";

// They belong to version 1 and do not stand in the file, so that no file can ask for an hour or for all memory.
// libsodium's "moderate" cost; RFC 9106 (2021, section 4) asks for 3 passes over 64 MiB where memory is short.
constexpr unsigned long long kPasses = 3;
constexpr std::size_t kMemory = 256U << 20U;

using BoxKey = std::array<unsigned char, crypto_secretbox_KEYBYTES>;

bool derive(BoxKey& key, std::string_view passphrase, const Bytes& salt) {
  return crypto_pwhash(key.data(), key.size(), passphrase.data(), passphrase.size(), salt.data(), kPasses, kMemory,
                       crypto_pwhash_ALG_ARGON2ID13) == 0;
}

/// A line "name digits" taken from the front of the text.
std::optional<Bytes> taken(std::string_view& text, std::string_view name, std::size_t bytes) {
  const std::size_t length = name.size() + 1 + bytes * 2;
  if (text.size() < length + 1 || !text.starts_with(name) || text[name.size()] != ' ' || text[length] != '\n')
    return std::nullopt;
  auto value = bytes_from_hex(text.substr(name.size() + 1, bytes * 2), bytes);
  text.remove_prefix(length + 1);
  return value;
}

struct Parts {
  Bytes open, salt, nonce, box;
};

std::variant<Parts, KeyRefusal> parts_of(std::string_view text) {
  if (!text.starts_with(kAnyVersion)) return KeyRefusal::no_key_file;
  if (!text.starts_with(std::string(kFirstLine) + "\n")) return KeyRefusal::newer;
  text.remove_prefix(kFirstLine.size() + 1);
  auto open = taken(text, "public", crypto_sign_PUBLICKEYBYTES);
  auto salt = taken(text, "salt", crypto_pwhash_SALTBYTES);
  auto nonce = taken(text, "nonce", crypto_secretbox_NONCEBYTES);
  auto box = taken(text, "box", crypto_sign_SEEDBYTES + crypto_secretbox_MACBYTES);
  if (!open || !salt || !nonce || !box || !text.empty()) return KeyRefusal::no_key_file;
  return Parts{std::move(*open), std::move(*salt), std::move(*nonce), std::move(*box)};
}

std::string line(std::string_view name, const Bytes& bytes) {
  return std::string(name) + " " + hex_from(bytes.data(), bytes.size()) + "\n";
}

}  // namespace

std::optional<std::string> text_from_secret_key(const KeyPair& keys, std::string_view passphrase) {
  if (!library_is_ready()) return std::nullopt;
  auto secret = bytes_from_hex(keys.secret_hex, crypto_sign_SECRETKEYBYTES);
  const auto open = bytes_from_hex(keys.public_key.hex, crypto_sign_PUBLICKEYBYTES);
  if (!secret || !open) return std::nullopt;
  Bytes salt(crypto_pwhash_SALTBYTES), nonce(crypto_secretbox_NONCEBYTES);
  randombytes_buf(salt.data(), salt.size());
  randombytes_buf(nonce.data(), nonce.size());
  BoxKey key{};
  const bool derived = derive(key, passphrase, salt);
  Bytes box(crypto_sign_SEEDBYTES + crypto_secretbox_MACBYTES);
  // The seed is the first half of the secret key.
  if (derived) crypto_secretbox_easy(box.data(), secret->data(), crypto_sign_SEEDBYTES, nonce.data(), key.data());
  sodium_memzero(key.data(), key.size());
  sodium_memzero(secret->data(), secret->size());
  if (!derived) return std::nullopt;
  return std::string(kFirstLine) + "\n" + line("public", *open) + line("salt", salt) + line("nonce", nonce) +
         line("box", box);
}

std::variant<KeyPair, KeyRefusal> secret_key_from_text(std::string_view text, std::string_view passphrase) {
  auto read = parts_of(text);
  if (const auto* refusal = std::get_if<KeyRefusal>(&read)) return *refusal;
  const Parts& parts = std::get<Parts>(read);
  BoxKey key{};
  if (!library_is_ready() || !derive(key, passphrase, parts.salt)) return KeyRefusal::no_memory;
  std::string seed(crypto_sign_SEEDBYTES, '\0');
  const int failed = crypto_secretbox_open_easy(reinterpret_cast<unsigned char*>(seed.data()), parts.box.data(),
                                                parts.box.size(), parts.nonce.data(), key.data());
  sodium_memzero(key.data(), key.size());
  if (failed != 0) return KeyRefusal::wrong_passphrase;
  std::optional<KeyPair> keys = key_pair_from_seed(seed);
  wipe(seed);
  if (!keys || keys->public_key.hex != hex_from(parts.open.data(), parts.open.size()))
    return KeyRefusal::other_public_key;
  return *keys;
}

std::variant<PublicKey, KeyRefusal> public_key_beside_secret(std::string_view text) {
  auto read = parts_of(text);
  if (const auto* refusal = std::get_if<KeyRefusal>(&read)) return *refusal;
  const Parts& parts = std::get<Parts>(read);
  return PublicKey{hex_from(parts.open.data(), parts.open.size())};
}

}  // namespace rushlight
