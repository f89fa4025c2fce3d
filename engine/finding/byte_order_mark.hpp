#pragma once

#include <string_view>

namespace rushlight {

/// What some editors put before the first letter of a file in UTF-8.
inline constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";

}  // namespace rushlight
