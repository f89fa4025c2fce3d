#pragma once

#include "cli/dialog.hpp"
#include "cli/screen.hpp"

namespace rushlight {

/// The screen of a menu beside the step: the urgency, the child and the countdown stay.
void show_menu(const Situation& situation, const Dialog& dialog, Screen& screen);

/// A question with its help and its numbered lines.
void show_asked(Screen& screen, const ShownQuestion& question, Language language);

}  // namespace rushlight
