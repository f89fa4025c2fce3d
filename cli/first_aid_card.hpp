#pragma once

#include <string>
#include <vector>

#include "finding/finding.hpp"
#include "protocol/text.hpp"

namespace rushlight {

/// What to do when nothing else can be shown: a refused protocol, child file or journal. Holds no number at all, so
/// that it is right for every child. Ends with a line end.
std::string first_aid_card(Language language);

/// The mistakes in a few lines, the first of them whole, then how to see all.
std::vector<std::string> what_is_wrong(const std::vector<Finding>& findings, Language language);

/// What stands on the screen when a walk cannot begin: why, the card, and one line that offers the card in the other
/// language by `command`. One card only: on a screen of 24 rows the reason must not have scrolled away.
std::string cannot_begin(const std::vector<std::string>& why, Language language,
                         const std::string& command = "rushlight walk");

/// That one line.
std::string other_language_line(Language language, const std::string& command);

}  // namespace rushlight
