#pragma once

#include <string>

#include "protocol/text.hpp"

namespace rushlight {

/// What to do when nothing else can be shown: a refused protocol, child file or journal. Holds no number at all, so
/// that it is right for every child. Ends with a line end.
std::string first_aid_card(Language language);

/// The card in every language, one below the other, `first` on top.
std::string first_aid_cards(Language first);

}  // namespace rushlight
