#include "measure/written.hpp"

namespace rushlight {
namespace {

constexpr std::string_view kBlanks = " \t";
constexpr std::string_view kNumberCharacters = "0123456789.,+-";

}  // namespace

Written written_from_text(std::string_view text) {
  std::size_t cut = text.find_first_of(kBlanks);
  if (cut == std::string_view::npos) cut = text.find_first_not_of(kNumberCharacters);
  if (cut == std::string_view::npos) return Written{text, {}};
  const std::size_t unit_at = text.find_first_not_of(kBlanks, cut);
  return Written{text.substr(0, cut), unit_at == std::string_view::npos ? text.substr(cut) : text.substr(unit_at)};
}

std::string_view trimmed(std::string_view text) {
  const std::size_t first = text.find_first_not_of(kBlanks);
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(kBlanks) - first + 1);
}

std::string small_letters(std::string_view text) {
  std::string small(text);
  for (char& letter : small) {
    if (letter >= 'A' && letter <= 'Z') letter = static_cast<char>(letter - 'A' + 'a');
  }
  return small;
}

}  // namespace rushlight
