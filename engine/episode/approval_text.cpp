#include "episode/approval_text.hpp"

#include "episode/phrases.hpp"

namespace rushlight {
namespace {

std::optional<Approval> approval_in(const Scene& scene) {
  const Part* part = scene.protocol.part_of(scene.episode.step);
  return part != nullptr ? part->approval : std::nullopt;
}

}  // namespace

bool is_approved_now(const Scene& scene) {
  const std::optional<Approval> approval = approval_in(scene);
  return approval && approval->verified && approval->on <= scene.today && scene.today <= approval->until;
}

std::string approval_text(const Scene& scene, Language language) {
  const std::optional<Approval> approval = approval_in(scene);
  if (!approval) return phrase(Phrase::not_approved, language);
  if (!approval->verified) return phrase(Phrase::approval_void, language);
  if (scene.today < approval->on) return phrase(Phrase::approval_to_come, language, text_from_day(approval->on));
  if (!is_approved_now(scene)) return phrase(Phrase::approval_over, language, text_from_day(approval->until));
  return phrase(Phrase::approved_by, language, approval->by, text_from_day(approval->until));
}

}  // namespace rushlight
