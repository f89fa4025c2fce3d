#pragma once

#include <string>
#include <vector>

#include "protocol/step.hpp"
#include "protocol/text.hpp"

namespace rushlight {

/// How an action went, as a person says it: in the menu, and as a mark beside the action.
std::string outcome_line(Outcome outcome, ActionKind kind, Language language);
std::string outcome_mark(Outcome outcome, Language language);

/// The outcomes a person may name for an action, in the order of the menu.
std::vector<Outcome> outcomes_of(ActionKind kind);

/// The same in the order of "how much went in": all, some, and the ways to none.
std::vector<Outcome> amounts_of(ActionKind kind);

}  // namespace rushlight
