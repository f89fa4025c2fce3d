#include "cli/plain_text.hpp"

#include <algorithm>
#include <array>
#include <cstdint>
#include <utility>

namespace rushlight {
namespace {

constexpr char32_t kInvalid = 0xFFFFFFFF;
constexpr int kNarrowest = 8;  // columns; with less beside the number the text does not hang under it

struct CodePoints {
  char32_t first, last;
};

constexpr bool lies_in(char32_t point, const CodePoints* begin, const CodePoints* end) {
  return std::any_of(begin, end, [&](const CodePoints& span) { return span.first <= point && point <= span.last; });
}

// Marks that turn the reading direction or show nothing: they could make a dose read differently from what is written.
constexpr std::array<CodePoints, 9> kHidden = {{{0x00AD, 0x00AD},
                                                {0x061C, 0x061C},
                                                {0x180E, 0x180E},
                                                {0x200B, 0x200F},
                                                {0x202A, 0x202E},
                                                {0x2060, 0x206F},
                                                {0xFEFF, 0xFEFF},
                                                {0xFFF9, 0xFFFB},
                                                {0xE0000, 0xE0FFF}}};
constexpr std::array<CodePoints, 6> kCombining = {
    {{0x0300, 0x036F}, {0x1AB0, 0x1AFF}, {0x1DC0, 0x1DFF}, {0x20D0, 0x20FF}, {0xFE00, 0xFE0F}, {0xFE20, 0xFE2F}}};
constexpr std::array<CodePoints, 9> kWide = {{{0x1100, 0x115F},
                                              {0x2E80, 0xA4CF},
                                              {0xAC00, 0xD7A3},
                                              {0xF900, 0xFAFF},
                                              {0xFE30, 0xFE6F},
                                              {0xFF00, 0xFF60},
                                              {0xFFE0, 0xFFE6},
                                              {0x1F300, 0x1FAFF},
                                              {0x20000, 0x3FFFD}}};

// Takes one code point off the front; kInvalid takes one byte.
char32_t take_point(std::string_view& text) {
  const auto byte = [&](std::size_t at) { return static_cast<std::uint8_t>(text[at]); };
  const std::uint8_t first = byte(0);
  const std::size_t size = first < 0x80 ? 1 : first >= 0xF0 ? 4 : first >= 0xE0 ? 3 : first >= 0xC2 ? 2 : 0;
  constexpr std::array<char32_t, 5> kLeast = {0, 0, 0x80, 0x800, 0x10000};
  constexpr std::array<std::uint8_t, 5> kBits = {0, 0x7F, 0x1F, 0x0F, 0x07};
  char32_t point = size == 0 || first > 0xF4 ? kInvalid : first & kBits[size];
  for (std::size_t at = 1; point != kInvalid && at < size; ++at) {
    point = at >= text.size() || (byte(at) & 0xC0) != 0x80 ? kInvalid : (point << 6) | (byte(at) & 0x3F);
  }
  const bool wrong =
      point == kInvalid || point < kLeast[size] || point > 0x10FFFF || (point >= 0xD800 && point <= 0xDFFF);
  text.remove_prefix(wrong ? 1 : size);
  return wrong ? kInvalid : point;
}

int columns_of_point(char32_t point) {
  if (lies_in(point, kCombining.data(), kCombining.data() + kCombining.size())) return 0;
  return lies_in(point, kWide.data(), kWide.data() + kWide.size()) ? 2 : 1;
}

constexpr std::array<std::pair<std::string_view, std::string_view>, 7> kSpanishLetters = {
    {{"á", "Á"}, {"é", "É"}, {"í", "Í"}, {"ó", "Ó"}, {"ú", "Ú"}, {"ü", "Ü"}, {"ñ", "Ñ"}}};
constexpr std::string_view kBareLetters = "aeiouu";  // of the first six above; "ñ" is a letter of its own

template <class Change>
std::string changed(std::string_view text, Change change) {
  std::string result;
  while (!text.empty()) {
    std::size_t taken = 1;
    std::string letter(text.substr(0, 1));
    for (std::size_t at = 0; at < kSpanishLetters.size(); ++at) {
      const auto& [small, large] = kSpanishLetters[at];
      if (text.substr(0, 2) != small && text.substr(0, 2) != large) continue;
      taken = 2;
      letter = change(at, std::string(text.substr(0, 2)));
    }
    if (taken == 1) letter = change(kSpanishLetters.size(), letter);
    result += letter;
    text.remove_prefix(taken);
  }
  return result;
}

}  // namespace

std::string cleaned(std::string_view text) {
  std::string result;
  while (!text.empty()) {
    const std::string_view before = text;
    const char32_t point = take_point(text);
    const bool is_break = point == '\n' || point == '\r' || point == '\t' || point == 0x2028 || point == 0x2029;
    if (is_break) {
      result += ' ';
    } else if (point == kInvalid || point < 0x20 || (point >= 0x7F && point <= 0x9F)) {
      result += '?';
    } else if (!lies_in(point, kHidden.data(), kHidden.data() + kHidden.size())) {
      result += before.substr(0, before.size() - text.size());
    }
  }
  return result;
}

int columns_of(std::string_view text) {
  int columns = 0;
  while (!text.empty()) columns += columns_of_point(take_point(text));
  return columns;
}

std::string cut(std::string_view text, int width) {
  std::string_view rest = text;
  int columns = 0;
  while (!rest.empty()) {
    std::string_view after = rest;
    columns += columns_of_point(take_point(after));
    if (columns > width) break;
    rest = after;
  }
  return std::string(text.substr(0, text.size() - rest.size()));
}

std::vector<std::string> wrapped(std::string_view lead, std::string_view text, int width) {
  width = std::max(width, 1);
  const bool hangs = columns_of(lead) + kNarrowest <= width;
  const std::string indent(hangs ? static_cast<std::size_t>(columns_of(lead)) : 0, ' ');
  const std::string whole = hangs ? std::string(text) : std::string(lead) + std::string(text);
  std::vector<std::string> lines;
  std::string line = hangs ? std::string(lead) : "";
  bool fresh = true;  // no word on this line yet
  const auto next_line = [&] {
    lines.push_back(line);
    line = indent;
    fresh = true;
  };
  for (std::string_view rest = whole; rest.find_first_not_of(' ') != std::string_view::npos;) {
    rest.remove_prefix(rest.find_first_not_of(' '));
    std::string_view word = rest.substr(0, rest.find(' '));
    rest.remove_prefix(word.size());
    if (!fresh && columns_of(line) + 1 + columns_of(word) > width) next_line();
    if (!fresh) line += ' ';
    while (columns_of(line) + columns_of(word) > width) {  // longer than a whole line
      std::string piece = cut(word, width - columns_of(line));
      if (piece.empty()) piece = cut(word, 2);  // a wide character in one column
      line += piece;
      word.remove_prefix(piece.size());
      if (word.empty()) break;
      next_line();
    }
    line += word;
    fresh = false;
  }
  lines.push_back(line);
  return lines;
}

std::string in_capitals(std::string_view text) {
  return changed(text, [](std::size_t at, std::string letter) {
    if (at < kSpanishLetters.size()) return std::string(kSpanishLetters[at].second);
    if (letter[0] >= 'a' && letter[0] <= 'z') letter[0] = static_cast<char>(letter[0] - 'a' + 'A');
    return letter;
  });
}

std::string sentence_case(std::string_view text) {
  const std::string first = cut(text, 1);
  return in_capitals(first) + std::string(text.substr(first.size()));
}

std::string folded_letters(std::string_view text) {
  return changed(text, [](std::size_t at, std::string letter) {
    if (at < kBareLetters.size()) return std::string(1, kBareLetters[at]);
    if (at < kSpanishLetters.size()) return std::string(kSpanishLetters[at].first);
    if (letter[0] >= 'A' && letter[0] <= 'Z') letter[0] = static_cast<char>(letter[0] - 'A' + 'a');
    return letter;
  });
}

}  // namespace rushlight
