#include "finding/quoted.hpp"

#include <algorithm>
#include <cstdint>

namespace rushlight {
namespace {

constexpr std::string_view kReplacement = "\xEF\xBF\xBD";  // U+FFFD
constexpr std::size_t kLongestQuote = 60;

bool is_continuation(unsigned char byte) { return (byte & 0xC0U) == 0x80U; }

// The bytes of the code point at the front, or 0 when they are no UTF-8.
std::size_t length_of_first(std::string_view text) {
  const auto lead = static_cast<unsigned char>(text.front());
  if (lead < 0x80U) return 1;
  const std::size_t length = lead >= 0xF0U ? 4 : lead >= 0xE0U ? 3 : 2;
  if (lead < 0xC2U || lead > 0xF4U || text.size() < length) return 0;
  for (std::size_t i = 1; i < length; ++i) {
    if (!is_continuation(static_cast<unsigned char>(text[i]))) return 0;
  }
  const auto second = static_cast<unsigned char>(text[1]);
  const bool overlong = (lead == 0xE0U && second < 0xA0U) || (lead == 0xF0U && second < 0x90U);
  const bool beyond = (lead == 0xEDU && second > 0x9FU) || (lead == 0xF4U && second > 0x8FU);
  return overlong || beyond ? 0 : length;
}

// U+0000 to U+001F, U+007F to U+009F, the marks that turn the writing direction, and the line separators.
bool hides_or_moves(std::string_view point) {
  const auto first = static_cast<unsigned char>(point[0]);
  if (point.size() == 1) return (first < 0x20U && first != '\t') || first == 0x7FU;
  const auto second = static_cast<unsigned char>(point[1]);
  if (point.size() == 2) return first == 0xC2U && second < 0xA0U;
  if (point.size() != 3 || first != 0xE2U) return false;
  const auto third = static_cast<unsigned char>(point[2]);
  const bool turns =
      (second == 0x80U && third >= 0xA8U && third <= 0xAEU) || (second == 0x81U && third >= 0xA6U && third <= 0xA9U);
  return turns;
}

// Calls `take` with each code point as it may be shown.
template <class Take>
void for_each_shown(std::string_view text, Take take) {
  while (!text.empty()) {
    const std::size_t length = length_of_first(text);
    const std::string_view point = text.substr(0, length == 0 ? 1 : length);
    take(length == 0 || hides_or_moves(point) ? kReplacement : point);
    text.remove_prefix(point.size());
  }
}

}  // namespace

std::string one_line(std::string_view text) {
  std::string line;
  for_each_shown(text, [&](std::string_view point) { line += point; });
  return line;
}

std::size_t code_points(std::string_view text) {
  std::size_t count = 0;
  for_each_shown(text, [&](std::string_view) { ++count; });
  return count;
}

std::string quoted(std::string_view text) {
  std::string quote = "`";
  std::size_t count = 0;
  for_each_shown(text, [&](std::string_view point) {
    if (++count > kLongestQuote) return;
    quote += point == "`" ? "'" : point == "\t" ? " " : point;
  });
  if (count > kLongestQuote) quote += "...";
  return quote + "`";
}

std::string quoted_choice(const std::vector<std::string>& words, std::size_t most) {
  std::string text;
  const std::size_t shown = std::min(words.size(), most);
  for (std::size_t i = 0; i < shown; ++i) {
    if (i > 0) text += i + 1 == words.size() ? " or " : ", ";
    text += quoted(words[i]);
  }
  if (shown < words.size()) text += " ...";
  return text;
}

std::string quoted_list(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& word : words) {
    if (!text.empty()) text += ", ";
    text += quoted(word);
  }
  return text;
}

// "do of kind note" is the element `<do>` and what makes it special.
std::string quoted_element(std::string_view element) {
  const std::size_t end = std::min(element.find(' '), element.size());
  return quoted("<" + std::string(element.substr(0, end)) + ">") + one_line(element.substr(end));
}

}  // namespace rushlight
