#pragma once

#include <string>
#include <vector>

#include "cli/situation.hpp"

namespace rushlight {

/// Why the episode stands in its step, in the words of the questions and answers that led there. No rule's name and no
/// bare threshold: those are for the clinic.
std::vector<std::string> why_in_plain_words(const Situation& situation);

}  // namespace rushlight
