#pragma once

#include <iosfwd>

namespace rushlight {

/// Says that not all of what was printed could be written, and gives the exit status 2. `error` is the errno; 0 when
/// nobody knows it.
int tell_cut_off(std::ostream& err, int error);

/// The exit status of a command that printed to the standard output: its own, or 2 when that does not hold all of it,
/// which is said. A reader that went away, such as `head`, has had what it wanted: nothing is said then.
int status_when_printed(int status, std::ostream& err);

}  // namespace rushlight
