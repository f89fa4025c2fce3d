#include "cli/asked_below.hpp"

#include "cli/keys.hpp"
#include "cli/say.hpp"
#include "cli/signals.hpp"

namespace rushlight {

std::optional<std::string> line_asked_for(Terminal& terminal, Keyboard& keyboard, const std::string& sentence) {
  terminal.show({{sentence, false}}, "> ", Terminal::Where::below);
  while (signal_to_leave() == 0) {
    const Typed typed = keyboard.wait(kBetweenLooks);
    if (typed.kind == Typed::Kind::line) return typed.text;
    if (typed.kind == Typed::Kind::end) break;
  }
  return std::nullopt;
}

bool agreed_to(Terminal& terminal, Keyboard& keyboard, Language language, const std::string& sentence) {
  std::string asked = sentence;
  while (const std::optional<std::string> typed = line_asked_for(terminal, keyboard, asked)) {
    if (const std::optional<bool> yes = yes_no_from_text(*typed)) return *yes;
    if (key_from_text(*typed) == Key::stop) return false;
    asked = say(kTypeYesOrNo, language);
  }
  return false;
}

}  // namespace rushlight
