#pragma once

#include <string>
#include <string_view>

namespace rushlight {

/// Text made fit to stand inside XML or SVG, as text or between the quotes of an attribute: what would be markup is
/// read back as the character it is.
std::string escaped_for_markup(std::string_view text);

}  // namespace rushlight
