#include "seal/seal.hpp"

#include <sodium.h>

#include <algorithm>
#include <array>

#include "finding/markup.hpp"

namespace rushlight {
namespace {

using Bytes = std::vector<unsigned char>;

bool library_is_ready() { return sodium_init() >= 0; }

std::string hex_from(const unsigned char* bytes, std::size_t count) {
  std::string text(count * 2 + 1, '\0');
  sodium_bin2hex(text.data(), text.size(), bytes, count);
  text.pop_back();
  return text;
}

std::optional<Bytes> bytes_from_hex(std::string_view text, std::size_t count) {
  Bytes bytes(count);
  std::size_t read = 0;
  const char* end = nullptr;
  const int failed = sodium_hex2bin(bytes.data(), bytes.size(), text.data(), text.size(), nullptr, &read, &end);
  if (failed != 0 || read != count || end != text.data() + text.size()) return std::nullopt;
  return bytes;
}

/// From `start` to behind the `>` that ends this tag; a `>` in a value does not.
std::size_t tag_end(std::string_view bytes, std::size_t start) {
  char quote = 0;
  for (std::size_t at = start; at < bytes.size(); ++at) {
    const char c = bytes[at];
    if (quote != 0) {
      if (c == quote) quote = 0;
    } else if (c == '"' || c == '\'') {
      quote = c;
    } else if (c == '>') {
      return at + 1;
    }
  }
  return std::string_view::npos;
}

/// Where the first tag of this name begins, outside comments.
std::size_t tag_start(std::string_view bytes, std::string_view name) {
  for (std::size_t at = 0; at < bytes.size(); ++at) {
    if (bytes.substr(at).starts_with("<!--")) {
      const std::size_t end = bytes.find("-->", at);
      if (end == std::string_view::npos) break;
      at = end + 2;
      continue;
    }
    if (bytes[at] != '<' || !bytes.substr(at + 1).starts_with(name)) continue;
    const std::size_t behind = at + 1 + name.size();
    const bool whole = behind < bytes.size() && std::string_view(" \t\r\n/>").find(bytes[behind]) != std::string_view::npos;
    if (whole) return at;
  }
  return std::string_view::npos;
}

/// What is signed: nobody can move the day or the name without a new signature.
std::string statement(const Approval& approval, std::string_view bytes) {
  return "rushlight approval\n" + approval.by + "\n" + text_from_day(approval.on) + "\n" + text_from_day(approval.until) +
         "\n" + without_approval(bytes);
}

const unsigned char* as_bytes(const std::string& text) { return reinterpret_cast<const unsigned char*>(text.data()); }

}  // namespace

KeyPair new_key_pair() {
  if (!library_is_ready()) return {};
  std::array<unsigned char, crypto_sign_PUBLICKEYBYTES> open{};
  std::array<unsigned char, crypto_sign_SECRETKEYBYTES> secret{};
  crypto_sign_keypair(open.data(), secret.data());
  return {PublicKey{hex_from(open.data(), open.size())}, hex_from(secret.data(), secret.size())};
}

std::string without_approval(std::string_view bytes) {
  const std::size_t start = tag_start(bytes, "approval");
  if (start == std::string_view::npos) return std::string(bytes);
  std::size_t end = tag_end(bytes, start);
  if (end == std::string_view::npos) return std::string(bytes);
  constexpr std::string_view kClosing = "</approval>";
  if (bytes[end - 2] != '/' && bytes.substr(end).starts_with(kClosing)) end += kClosing.size();
  return std::string(bytes.substr(0, start)) + std::string(bytes.substr(end));
}

std::optional<std::string> with_approval(std::string_view bytes, const std::string& by, const Day& on, const Day& until,
                                         const KeyPair& keys) {
  const std::string plain = without_approval(bytes);
  const std::size_t root = tag_start(plain, "protocol");
  const std::size_t end = root == std::string::npos ? root : tag_end(plain, root);
  const auto secret = bytes_from_hex(keys.secret_hex, crypto_sign_SECRETKEYBYTES);
  if (end == std::string::npos || !secret || !library_is_ready()) return std::nullopt;
  const std::string said = statement(Approval{by, on, until, {}, {}}, plain);
  std::array<unsigned char, crypto_sign_BYTES> signature{};
  crypto_sign_detached(signature.data(), nullptr, as_bytes(said), said.size(), secret->data());
  return plain.substr(0, end) + "<approval by=\"" + escaped_for_markup(by) + "\" on=\"" + text_from_day(on) + "\" until=\"" +
         text_from_day(until) + "\" key=\"" + keys.public_key.hex + "\" signature=\"" +
         hex_from(signature.data(), signature.size()) + "\"/>" + plain.substr(end);
}

bool is_approved(const Approval& approval, std::string_view bytes, const std::vector<PublicKey>& trusted) {
  const auto key = public_key_from_text(approval.key);
  if (!key || std::find(trusted.begin(), trusted.end(), *key) == trusted.end()) return false;
  const auto open = bytes_from_hex(key->hex, crypto_sign_PUBLICKEYBYTES);
  const auto signature = bytes_from_hex(approval.signature, crypto_sign_BYTES);
  if (!open || !signature || !library_is_ready()) return false;
  const std::string said = statement(approval, bytes);
  return crypto_sign_verify_detached(signature->data(), as_bytes(said), said.size(), open->data()) == 0;
}

std::optional<PublicKey> public_key_from_text(std::string_view text) {
  const std::size_t first = text.find_first_not_of(" \t\r\n");
  if (first == std::string_view::npos) return std::nullopt;
  const std::size_t last = text.find_last_not_of(" \t\r\n");
  const auto bytes = bytes_from_hex(text.substr(first, last - first + 1), crypto_sign_PUBLICKEYBYTES);
  if (!bytes) return std::nullopt;
  return PublicKey{hex_from(bytes->data(), bytes->size())};
}

}  // namespace rushlight
