#include "episode/approval_text.hpp"

#include "episode/phrases.hpp"

namespace rushlight {

std::string_view id_of(ApprovalState state) {
  switch (state) {
    case ApprovalState::none:
      break;
    case ApprovalState::changed:
      return "changed";
    case ApprovalState::untrusted:
      return "not-trusted";
    case ApprovalState::to_come:
      return "not-begun";
    case ApprovalState::over:
      return "ended";
    case ApprovalState::approved:
      return "approved";
  }
  return "not-approved";
}

ApprovalState approval_state(const std::optional<Approval>& approval, const Day& today) {
  if (!approval) return ApprovalState::none;
  if (approval->standing == Standing::untrusted) return ApprovalState::untrusted;
  if (approval->standing != Standing::good) return ApprovalState::changed;
  if (today < approval->on) return ApprovalState::to_come;
  return approval->until < today ? ApprovalState::over : ApprovalState::approved;
}

std::string approval_text(const std::optional<Approval>& approval, const Day& today, Language language) {
  switch (approval_state(approval, today)) {
    case ApprovalState::none:
      break;
    case ApprovalState::changed:
      return phrase(Phrase::approval_void, language);
    case ApprovalState::untrusted:
      return phrase(Phrase::approval_untrusted, language);
    case ApprovalState::to_come:
      return phrase(Phrase::approval_to_come, language, text_from_day(approval->on));
    case ApprovalState::over:
      return phrase(Phrase::approval_over, language, text_from_day(approval->until));
    case ApprovalState::approved:
      return phrase(Phrase::approved_by, language, approval->by + " (" + approval->role + ")",
                    text_from_day(approval->until));
  }
  return phrase(Phrase::not_approved, language);
}

std::optional<Approval> approval_in(const Scene& scene) {
  const Part* part = scene.protocol.part_of(scene.episode.step);
  return part != nullptr ? part->approval : std::nullopt;
}

bool is_approved_now(const Scene& scene) {
  return approval_state(approval_in(scene), scene.today) == ApprovalState::approved;
}

}  // namespace rushlight
