#include "episode/cautions.hpp"

#include <algorithm>

#include "episode/approval_text.hpp"
#include "episode/fold.hpp"
#include "episode/phrases.hpp"
#include "episode/words.hpp"

namespace rushlight {
namespace {

bool shows(const Scene& scene, const Step& step, bool (*wanted)(const Action&)) {
  return std::any_of(step.actions.begin(), step.actions.end(), [&](ActionId id) {
    const Action& action = scene.protocol[id];
    return wanted(action) && applies(scene, action);
  });
}

/// A question of the step was answered while its wait was still running.
bool answered_early(const Scene& scene, const Step& step) {
  const Episode& episode = scene.episode;
  if (!step.wait || episode.wait_passed) return false;
  return std::any_of(step.asks.begin(), step.asks.end(), [&](const Ask& ask) {
    const FactKind kind = scene.protocol[ask.fact].kind;
    if (ask.fresh || (kind != FactKind::glucose && kind != FactKind::ketones)) return false;
    const std::optional<Known>& known = episode.facts[ask.fact.index];
    return known && known->learned > episode.entered;
  });
}

/// The weight is older than the clinic's limit, or nobody knows since when it holds.
bool weight_is_old(const Scene& scene) {
  if (!scene.protocol.weight_fresh || !scene.child.weight || !scene.child.weighed) return false;
  const auto* limit = std::get_if<Duration>(&value_in(scene.protocol[*scene.protocol.weight_fresh], scene.context));
  if (limit == nullptr) return false;
  return std::chrono::sys_days(scene.today) - std::chrono::sys_days(*scene.child.weighed) > *limit;
}

bool pump_is_paused(const Scene& scene) {
  const std::optional<FactId> fact = scene.protocol.fact_named("pump-paused");
  if (!fact) return false;
  const std::optional<Value> value = value_of(scene, *fact);
  const auto* chosen = value ? std::get_if<Chosen>(&*value) : nullptr;
  return chosen != nullptr && scene.protocol[*fact].options[chosen->option].name == "yes";
}

}  // namespace

std::vector<std::string> cautions_for(const Scene& scene, const Step& step) {
  const Language language = scene.episode.language;
  std::vector<std::string> cautions;
  const auto say = [&](Phrase what, const std::string& one = "") { cautions.push_back(phrase(what, language, one)); };
  if (scene.episode.clock_went_back) say(Phrase::clock_went_back);
  if (answered_early(scene, step)) {
    say(Phrase::reading_was_early, when_again(scene, language));
  }
  if (shows(scene, step, [](const Action& action) { return action.dose.has_value(); })) {
    if (!scene.child.weight) say(Phrase::weight_unknown);
    if (weight_is_old(scene)) say(Phrase::weight_from, text_from_day(*scene.child.weighed));
  }
  if (shows(scene, step, [](const Action& action) { return action.kind == ActionKind::glucagon; })) {
    constexpr std::uint16_t kExpired = 3;
    const std::uint16_t rescue = rescue_option(scene);
    if (rescue == kExpired) say(Phrase::rescue_expired);
    for (const RescueMedicine& medicine : scene.child.rescue) {
      if (static_cast<std::uint16_t>(medicine.kind) == rescue && !medicine.expires) say(Phrase::look_at_expiry);
    }
  }
  if (step.wait && !scene.episode.wait_passed && scene.episode.waits <= 1) say(Phrase::second_alarm);
  if (scene.episode.ended && pump_is_paused(scene)) say(Phrase::pump_is_paused);
  for (const Text& text : scene.protocol.cautions) cautions.push_back(filled(scene, text, language, std::nullopt));
  cautions.push_back(approval_text(approval_in(scene), scene.today, language));
  say(Phrase::does_not_replace);
  return cautions;
}

}  // namespace rushlight
