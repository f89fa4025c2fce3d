#pragma once

#include <optional>
#include <string>

#include "episode/approval_text.hpp"
#include "seal/seal.hpp"

namespace rushlight {

/// The approval of a whole set as the faces take it: empty when no file holds one; `changed` when what is there is
/// none.
std::optional<Approval> approval_of_set(const SealedSet& sealed);

ApprovalState state_of_set(const SealedSet& sealed, const Day& today);

}  // namespace rushlight
