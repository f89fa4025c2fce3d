#pragma once

#include <string>

#include "verify/compare.hpp"
#include "verify/in_step.hpp"

// For engine/verify and engine/picture: where two versions of a protocol lead, in words, and how the newer stands to
// the older.

namespace rushlight {

/// "after" `treat`, "told at any time in" `rest`.
Difference::Place place_of(const Protocol& both, const Occasion& occasion);

/// "`treat`, Treat here: Low. Give {fast-carbohydrate} of sugar now."; "no rule" where nothing is left.
std::string words_of(const Protocol& both, const Ending& ending);

/// Whether something is given, drunk, injected or called there; another protocol counts as if.
bool gives(const Protocol& both, const Ending& ending);

/// What is done there, one bit a thing: the heavier, the greater.
std::uint32_t done_in(const Protocol& both, const Ending& ending);

/// What is lost where the one stands in place of the other.
Loss loss_in(const Protocol& both, const Together& from, const Ending& was, const Ending& now);

/// Sugar, drink, insulin or glucagon that the older gives and the newer does not.
bool loses_a_medicine(const Protocol& both, const Ending& was, const Ending& now);

/// What the newer does no more, or says no more, where its headline alone would not show it: it does as heavy a thing.
std::string left_out_in(const Protocol& both, const Ending& was, const Ending& now);

/// Of one ending in place of another. What stays in its step, or walks another protocol, has that step's urgency; calls
/// that were opened on the way count.
Difference::Turn turn_of(const Protocol& both, const Together& from, const Ending& was, const Ending& now);

/// By how many urgencies it falls; one more where no rule is left.
int falls_in(const Protocol& both, const Together& from, const Ending& was, const Ending& now);

}  // namespace rushlight
