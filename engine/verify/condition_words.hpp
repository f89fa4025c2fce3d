#pragma once

#include <string>

#include "protocol/protocol.hpp"

namespace rushlight {

/// A condition by the names of its file, so that those of two files can be compared: "`delivery` is `pump`".
std::string condition_in_words(const Protocol& protocol, const Condition& condition);

/// All of them in one order; empty where there are none.
std::string conditions_in_words(const Protocol& protocol, const Conditions& conditions);

/// A text with the names of its blanks, in one language.
std::string text_by_names(const Protocol& protocol, const Template& line);

}  // namespace rushlight
