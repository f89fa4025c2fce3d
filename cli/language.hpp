#pragma once

#include <optional>
#include <string>

#include "protocol/text.hpp"

namespace rushlight {

/// "en", "es"; empty for any other word.
std::optional<Language> language_named(const std::string& word);

/// The language that the machine speaks (LC_ALL, LC_MESSAGES, LANG), and English when it says none. Before any file
/// has been read it is the best guess for whoever sits in front of it.
Language language_of_machine();

/// The language of a child file, also of one that is refused for something else. Empty when it names none.
std::optional<Language> language_in_child_file(const std::string& bytes);

}  // namespace rushlight
