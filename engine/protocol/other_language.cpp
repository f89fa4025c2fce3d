#include "protocol/other_language.hpp"

#include <algorithm>
#include <array>

#include "protocol/text_words.hpp"

namespace rushlight {

namespace {

// Small words that are no word of the other language; sorted. "a", "me", "no", "son" and the like are left out.
constexpr std::array<std::string_view, 40> kEnglish = {
    "after", "again", "and",  "are",  "at",      "before", "below", "by",   "call", "child",
    "do",    "for",   "from", "give", "glucose", "has",    "how",   "if",   "in",   "is",
    "it",    "low",   "not",  "now",  "of",      "off",    "on",    "or",   "say",  "still",
    "than",  "that",  "the",  "then", "this",    "to",     "until", "when", "with", "your"};
constexpr std::array<std::string_view, 34> kSpanish = {
    "al",   "antes", "aún",  "bebida", "cada", "con",   "cuando", "de",  "del", "desde", "después", "diga",
    "dé",   "el",    "en",   "es",     "está", "hasta", "la",     "las", "le",  "llame", "los",     "luego",
    "mida", "más",   "nada", "otra",   "para", "por",   "que",    "si",  "una", "ya"};

/// Accents, ñ, and the signs that open a question or an exclamation. "°" and the like are of no language.
bool has_spanish_letters(std::string_view text) {
  for (std::size_t at = 0; at + 1 < text.size(); ++at) {
    const auto lead = static_cast<unsigned char>(text[at]), next = static_cast<unsigned char>(text[at + 1]);
    if (lead == 0xC3U && next != 0x97U && next != 0xB7U) return true;
    if (lead == 0xC2U && (next == 0xA1U || next == 0xBFU)) return true;
  }
  return false;
}

template <std::size_t Size>
bool is_among(const std::array<std::string_view, Size>& words, std::string_view word) {
  return std::binary_search(words.begin(), words.end(), word);
}

}  // namespace

bool is_in_other_language(std::string_view text, Language language, std::string_view beside) {
  const bool english = language == Language::en;
  int of_the_other = 0;
  bool own = false;
  each_word(text, [&](std::string_view whole) {
    const std::string_view word = whole.substr(0, whole.find('\''));  // of "child's" the child
    own = english ? is_among(kEnglish, word) : is_among(kSpanish, word);
    if (!own && (english ? is_among(kSpanish, word) : is_among(kEnglish, word))) ++of_the_other;
    return !own;  // nearly always one of the first words
  });
  if (own) return false;
  const bool letters = has_spanish_letters(text);
  if (of_the_other >= 2) return english || !letters;
  return english && letters && !beside.empty() && !has_spanish_letters(beside);
}

}  // namespace rushlight
