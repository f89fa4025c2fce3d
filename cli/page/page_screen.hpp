#pragma once

#include <string>

#include "cli/dialog.hpp"
#include "cli/screen.hpp"
#include "wire/json_writer.hpp"

namespace rushlight {

// The page shows the same screen as the terminal, line for line. Beside it stands what can be touched: each button, and
// each key of a pad, says what would be typed for it, and cli/dialog knows what that means.

/// The telephone number as a telephone dials it: digits, and a + in front. Empty when there are fewer than two digits.
std::string dialled(const std::string& number);

/// `screen` is the one of this situation and dialog. `number` changes with every other screen.
void write_page_screen(JsonWriter& json, const Situation& situation, const Dialog& dialog, const Screen& screen,
                       int number);

/// Everybody the child file names a telephone for, the emergency services first.
void write_contacts(JsonWriter& json, const Contacts& contacts, Language language);

}  // namespace rushlight
