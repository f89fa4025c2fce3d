#include "cli/keys.hpp"

#include <array>
#include <string>

#include "cli/plain_text.hpp"
#include "measure/written.hpp"

namespace rushlight {
namespace {

struct Words {
  Key key;
  std::string_view en, es;  // each word between bars, as folded_letters leaves it
};

constexpr std::array<Words, 9> kWords = {{
    {Key::worse, "|w|worse|", "|p|peor|"},
    {Key::cant_tell, "|t|can't tell|cant tell|i can't tell|unknown|?|", "|d|no se|no se decir|?|"},
    {Key::back, "|b|back|mistyped|", "|v|volver|me equivoque|"},
    {Key::why, "|r|why|why?|", "|r|por que|por que?|¿por que?|"},
    {Key::more, "|m|more|help|", "|m|mas|ayuda|"},
    {Key::trouble, "|x|", "|x|"},
    {Key::call, "|c|call|", "|c|llamada|"},
    {Key::beep, "|a|", "|a|"},
    {Key::stop, "|q|quit|stop|exit|", "|q|parar|salir|"},
}};

}  // namespace

std::optional<Key> key_from_text(std::string_view typed, Language language) {
  const std::string word = folded_letters(trimmed(typed));
  if (word.empty()) return Key::enter;
  if (word.find('|') != std::string::npos) return std::nullopt;
  const std::string barred = "|" + word + "|";
  for (const Words& words : kWords) {
    const std::string_view known = language == Language::es ? words.es : words.en;
    if (known.find(barred) != std::string_view::npos) return words.key;
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

std::optional<bool> yes_no_from_text(std::string_view typed) {
  const std::string word = folded_letters(trimmed(typed));
  if (word == "y" || word == "yes" || word == "s" || word == "si") return true;
  if (word == "n" || word == "no") return false;
  return std::nullopt;
}

}  // namespace rushlight
