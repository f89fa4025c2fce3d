#pragma once

#include "cli/dialog.hpp"

namespace rushlight {

// Pages that are only read; Enter goes back to the step.

/// The rule, numbers and sources behind the step and its doses.
Reading why(const Situation& situation);
Reading all_cautions(const Situation& situation);
Reading contacts(const Situation& situation);
Reading given_so_far(const Situation& situation);
/// Whom to call when what got worse is not on the list.
Reading something_else(const Situation& situation);

/// More past answers than fit beside the digits of one hand are not offered.
inline constexpr std::size_t kMostShownAnswers = 9;

}  // namespace rushlight
