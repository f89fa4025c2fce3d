#pragma once

namespace rushlight {

/// From here on Ctrl-C, a request to end and a hangup are only noted, so that the walk can say how to go on; a write to
/// nobody is an error and not the end; a new window size and a return from the background are noted too.
void note_signals();

/// The number of the signal that asks the program to leave; 0 when none does.
int signal_to_leave();

/// True once after the window changed its size or the program came back from the background.
bool take_redraw_request();

}  // namespace rushlight
