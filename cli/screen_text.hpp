#pragma once

#include "cli/dialog.hpp"
#include "cli/screen.hpp"

namespace rushlight {

/// The screen for what the dialog is about, in the episode's language. Pure.
/// `said` is the sentence of the last turn.
Screen screen_of(const Situation& situation, const Dialog& dialog, const std::string& said);

/// The clock time beside the name, and that it is a practice clock; and the countdown. Both move without a new screen.
std::string when_shown(const Situation& situation);
std::string live_line(const Situation& situation);

/// "14:32", "1:02:03"; "0:00" when the time is over.
std::string text_from_time_left(Duration left);

}  // namespace rushlight
