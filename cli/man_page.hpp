#pragma once

#include <string>

#include "cli/command_words.hpp"

namespace rushlight {

/// The manual page of one command in the macros of man(7): what it does, its options, its exit statuses, the files and
/// variables it looks at. `date` is the day it was made, like 2026-03-01.
std::string man_page(const CommandWords& command, const std::string& version, const std::string& date);

}  // namespace rushlight
