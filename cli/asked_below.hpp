#pragma once

#include <optional>
#include <string>

#include "cli/keyboard.hpp"
#include "cli/terminal.hpp"
#include "protocol/text.hpp"

namespace rushlight {

/// The line typed to a sentence that stands below what is on the screen already. Empty when the input ends or the
/// program is told to leave.
std::optional<std::string> line_asked_for(Terminal& terminal, Keyboard& keyboard, const std::string& sentence);

/// Whether the person types yes. Enter and anything that is neither yes nor no asks again: a walk is not left by
/// leaning on a key. "q" is a no, and so is the end of the input.
bool agreed_to(Terminal& terminal, Keyboard& keyboard, Language language, const std::string& sentence);

}  // namespace rushlight
