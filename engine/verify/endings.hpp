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

/// Where both do the heaviest thing, and its headline says no more of the rest: what the newer says no more.
std::string left_out_in(const Protocol& both, const Ending& was, const Ending& now);

/// Of one ending in place of another. What stays in its step has that step's urgency.
Difference::Turn turn_of(const Protocol& both, const Together& from, const Ending& was, const Ending& now);

/// By how many urgencies it falls; one more where no rule is left.
int falls_in(const Protocol& both, const Together& from, const Ending& was, const Ending& now);

}  // namespace rushlight
