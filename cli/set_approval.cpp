#include "cli/set_approval.hpp"

namespace rushlight {

std::optional<Approval> approval_of_set(const SealedSet& sealed) {
  if (sealed.approval || sealed.state == SealedSet::State::none) return sealed.approval;
  Approval none{};
  none.standing = Standing::changed;
  return none;
}

ApprovalState state_of_set(const SealedSet& sealed, const Day& today) {
  return approval_state(approval_of_set(sealed), today);
}

}  // namespace rushlight
