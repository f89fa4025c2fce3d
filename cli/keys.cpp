#include "cli/keys.hpp"

#include <array>
#include <string>

#include "cli/plain_text.hpp"
#include "measure/written.hpp"

namespace rushlight {
namespace {

struct Words {
  Key key;
  std::string_view words;  // each between bars, as folded_letters leaves it; English, then Spanish
};

constexpr std::array<Words, 9> kWords = {{
    {Key::worse, "|w|worse|p|peor|"},
    {Key::cant_tell, "|t|can't tell|cant tell|i can't tell|unknown|d|no se|no se decir|?|"},
    {Key::back, "|b|back|mistyped|v|volver|corregir|me equivoque|"},
    {Key::why, "|r|why|why?|por que|por que?|¿por que?|"},
    {Key::more, "|m|more|help|mas|ayuda|"},
    {Key::trouble, "|x|"},
    {Key::call, "|c|call|llamada|"},
    {Key::beep, "|a|"},
    {Key::stop, "|q|quit|stop|exit|parar|salir|"},
}};

}  // namespace

std::optional<Key> key_from_text(std::string_view typed) {
  const std::string word = folded_letters(trimmed(typed));
  if (word.empty()) return Key::enter;
  if (word.find('|') != std::string::npos) return std::nullopt;
  const std::string barred = "|" + word + "|";
  for (const Words& words : kWords) {
    if (words.words.find(barred) != std::string_view::npos) return words.key;
  }
  return std::nullopt;
}

std::optional<int> number_from_text(std::string_view typed) {
  const std::string_view text = trimmed(typed);
  if (text.empty() || text.size() > 2 || text.front() == '0') return std::nullopt;
  int number = 0;
  for (const char letter : text) {
    if (letter < '0' || letter > '9') return std::nullopt;
    number = number * 10 + (letter - '0');
  }
  return number;
}

std::optional<std::size_t> meanwhile_place_from_text(std::string_view typed) {
  const std::string letter = folded_letters(trimmed(typed));
  const std::size_t place = letter.size() == 1 ? kMeanwhileLetters.find(letter) : std::string_view::npos;
  return place == std::string_view::npos ? std::nullopt : std::optional<std::size_t>(place);
}

std::optional<std::string> ketones_named_in(std::string_view typed) {
  const std::string text = folded_letters(trimmed(typed));
  for (const std::string_view word : {"ketones", "ketone", "cetonas", "cetona"}) {
    if (!text.starts_with(word)) continue;
    const std::string_view rest = std::string_view(text).substr(word.size());
    const bool ends = rest.empty() || rest.front() == ' ' || rest.front() == ':' || rest.front() == '=';
    if (ends) return std::string(trimmed(rest.substr(rest.empty() ? 0 : 1)));
  }
  return std::nullopt;
}

std::optional<bool> yes_no_from_text(std::string_view typed) {
  const std::string word = folded_letters(trimmed(typed));
  if (word == "y" || word == "yes" || word == "s" || word == "si") return true;
  if (word == "n" || word == "no") return false;
  return std::nullopt;
}

}  // namespace rushlight
