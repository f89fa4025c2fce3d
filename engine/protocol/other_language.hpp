#pragma once

#include <string_view>

#include "protocol/text.hpp"

namespace rushlight {

/// Whether a text that should be in `language` is certainly in the other one: it holds two of the small words that only
/// the other has and none of its own; or, where it is too short for that, letters that English does not have, while the
/// text of the other language (`beside`, empty without one) has none of those.
bool is_in_other_language(std::string_view text, Language language, std::string_view beside);

}  // namespace rushlight
