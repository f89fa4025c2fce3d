#pragma once

#include <sodium.h>

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace rushlight {

// Bytes and hexadecimal digits. Private to this folder.

using Bytes = std::vector<unsigned char>;

inline bool library_is_ready() { return sodium_init() >= 0; }

inline std::string hex_from(const unsigned char* bytes, std::size_t count) {
  std::string text(count * 2 + 1, '\0');
  sodium_bin2hex(text.data(), text.size(), bytes, count);
  text.pop_back();
  return text;
}

/// Exactly so many bytes, nothing in front and nothing behind.
inline std::optional<Bytes> bytes_from_hex(std::string_view text, std::size_t count) {
  if (text.size() != count * 2) return std::nullopt;
  Bytes bytes(count);
  std::size_t read = 0;
  const char* end = nullptr;
  const int failed = sodium_hex2bin(bytes.data(), bytes.size(), text.data(), text.size(), nullptr, &read, &end);
  if (failed != 0 || read != count || end != text.data() + text.size()) return std::nullopt;
  return bytes;
}

inline const unsigned char* as_bytes(std::string_view text) {
  return reinterpret_cast<const unsigned char*>(text.data());
}

}  // namespace rushlight
