#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "protocol/text.hpp"

namespace rushlight {

/// What the two languages of one text say, each in its own word; one of them may say nothing.
struct SaidApart {
  std::string english, spanish;
};

/// Words that cannot both be right: "sugar-free" beside "con azúcar", "twice" beside "tres veces". Nothing is found
/// where each language says either, or neither. `one_says_no`: "keep on" is "do not stop" then.
std::optional<SaidApart> said_apart(std::string_view english, std::string_view spanish, bool one_says_no);

/// Whether a no is made up for by the other word: "do not leave" is "stay close".
bool turns_the_no(std::string_view denied, Language language, std::string_view said, Language other);

}  // namespace rushlight
