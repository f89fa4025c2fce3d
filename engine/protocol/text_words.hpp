#pragma once

#include <algorithm>
#include <array>
#include <string_view>

namespace rushlight {

/// Calls `take` with each word of a text in small letters, of "don't" the whole, without what stands in braces; stops
/// when it gives false. UTF-8; words of more than fifteen bytes are left out, and capitals with an accent stay as they
/// are.
template <class Take>
void each_word(std::string_view text, Take take) {
  constexpr std::size_t kLettersKept = 16;
  // A byte C2 begins a sign such as a turned question mark; the letters of both languages begin with others.
  const auto is_letter = [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (static_cast<unsigned char>(c) >= 0x80U && c != '\xC2');
  };
  std::array<char, kLettersKept> word{};
  for (std::size_t at = 0; at < text.size();) {
    if (text[at] == '{') at = std::min(text.find('}', at), text.size() - 1);
    if (text[at] == '\xC2') at = std::min(at + 2, text.size());
    std::size_t length = 0;
    for (; at < text.size() && (is_letter(text[at]) || (length > 0 && text[at] == '\'')); ++at, ++length) {
      const char c = text[at];
      if (length < kLettersKept) word[length] = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    }
    if (length > 0 && length < kLettersKept && !take(std::string_view(word.data(), length))) return;
    if (length == 0) ++at;
  }
}

}  // namespace rushlight
