#pragma once

#include <optional>
#include <string>

namespace rushlight {

/// One line of this descriptor, as typed; a CR at its end is no part of it. It takes not a byte more than the line, so
/// that lines can be read by somebody else afterwards. Empty at the end of the input, on Ctrl-C, and on a line of more
/// than 4000 bytes.
std::optional<std::string> line_from_descriptor(int descriptor);

/// The same, and on a terminal nothing of it is shown. The terminal shows again what is typed when this is over, also
/// after Ctrl-C.
std::optional<std::string> secret_line_from_descriptor(int descriptor);

}  // namespace rushlight
