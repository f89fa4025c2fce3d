#include "episode/insulin.hpp"

#include <algorithm>

#include "episode/approval_text.hpp"
#include "episode/phrases.hpp"
#include "episode/words.hpp"

namespace rushlight {
namespace {

template <class Kind>
const Kind* limit_of(const Scene& scene, ThresholdId id) {
  return std::get_if<Kind>(&value_in(scene.protocol[id], scene.context));
}

/// What the protocol and the child's file say before the night is looked at.
std::optional<Phrase> not_for_this_child(const Scene& scene) {
  const Part* part = scene.protocol.part_of(scene.episode.step);
  if (part == nullptr || !is_approved_now(scene)) return Phrase::insulin_not_approved;
  if (!part->insulin_doses) return Phrase::insulin_not_switched_on;
  if (scene.child.delivery == Delivery::automatic_pump) return Phrase::insulin_pump_corrects;
  if (!scene.child.total_daily_dose || !scene.child.daily_dose_on) return Phrase::insulin_daily_dose_unknown;
  const auto* fresh = part->daily_dose_fresh ? limit_of<Duration>(scene, *part->daily_dose_fresh) : nullptr;
  const Duration age = std::chrono::sys_days{scene.today} - std::chrono::sys_days{*scene.child.daily_dose_on};
  if (fresh == nullptr || age > *fresh) return Phrase::insulin_daily_dose_old;
  constexpr Decimal kUsualStrength = Decimal::whole(100);
  if (!scene.child.insulin_strength) return Phrase::insulin_strength_unknown;
  if (scene.child.insulin_strength->value != kUsualStrength) return Phrase::insulin_other_strength;
  return std::nullopt;
}

std::optional<std::string> answer_to(const Scene& scene, const char* name) {
  const std::optional<FactId> fact = scene.protocol.fact_named(name);
  const std::optional<Value> value = fact ? value_of(scene, *fact) : std::nullopt;
  if (!value || std::holds_alternative<CantTell>(*value)) return std::nullopt;
  const auto* chosen = std::get_if<Chosen>(&*value);
  if (chosen == nullptr) return std::nullopt;
  return scene.protocol[*fact].options[chosen->option].name;
}

/// When the fact was last told; empty when it never was.
std::optional<Instant> told_at(const Scene& scene, const char* name) {
  const std::optional<FactId> fact = scene.protocol.fact_named(name);
  if (!fact || !scene.episode.facts[fact->index]) return std::nullopt;
  return scene.episode.facts[fact->index]->learned;
}

/// Insulin that somebody gave is a dose like any other once it was the right one and its time is known.
bool told_in_full(const Scene& scene) {
  const std::optional<Instant> given = told_at(scene, "already-given"), right = told_at(scene, "wrong-insulin"),
                               when = told_at(scene, "last-rapid-insulin");
  return given && right && when && *right >= *given && *when >= *given && answer_to(scene, "wrong-insulin") == "no";
}

bool somebody_else_may_have_dosed(const Scene& scene) {
  if (answer_to(scene, "wrong-insulin") == "yes") return true;
  const std::optional<std::string> given = answer_to(scene, "already-given");
  if (given == "insulin") return !told_in_full(scene);
  return given != "no" && given != "sugar" && given != "glucagon";
}

/// Who takes over, or sees something worse, says first what the child has had.
bool is_asked_again(const Scene& scene) {
  const std::vector<FactId>& opening = scene.episode.opening;
  return std::any_of(opening.begin(), opening.end(),
                     [&](FactId fact) { return fact == scene.protocol.fact_named("already-given"); });
}

bool is_insulin(const Protocol& protocol, const Given& given) {
  return protocol[given.action].kind == ActionKind::insulin &&
         (given.outcome == Outcome::given || given.outcome == Outcome::part || given.outcome == Outcome::wrong);
}

}  // namespace

std::optional<Instant> insulin_of_this_night(const Protocol& protocol, const Episode& episode) {
  std::optional<Instant> last;
  for (const Given& given : episode.given) {
    if (is_insulin(protocol, given)) last = last ? std::max(*last, given.when) : given.when;
  }
  return last;
}

std::optional<Instant> last_rapid_insulin(const Scene& scene) {
  std::optional<Instant> last = insulin_of_this_night(scene.protocol, scene.episode);
  const auto note = [&](Instant when) { last = last ? std::max(*last, when) : when; };
  const std::optional<FactId> fact = scene.protocol.fact_named("last-rapid-insulin");
  const std::optional<Value> told = fact ? value_of(scene, *fact) : std::nullopt;
  if (!told || std::holds_alternative<CantTell>(*told)) return std::nullopt;
  if (const auto* ago = std::get_if<Ago>(&*told)) note(scene.now - ago->time);
  if (std::holds_alternative<NotLately>(*told)) note(scene.now - std::chrono::hours{24});
  if (scene.episode.past.last_insulin) note(scene.episode.past.last_insulin->utc + scene.episode.clock.lost);
  return last;
}

bool is_nothing(const std::optional<Quantity>& amount) { return amount && amount->value == Decimal{}; }

InsulinDose insulin_step_for(const Scene& scene, const Dose& dose) {
  if (scene.child.insulin_step) return *scene.child.insulin_step;
  const auto* usual = limit_of<Quantity>(scene, dose.to);
  return InsulinDose{usual != nullptr ? usual->value : Decimal{}, kInsulinUnit};
}

std::optional<Withholding> insulin_withheld(const Scene& scene, const Dose& dose, Language language) {
  const auto because = [&](Phrase reason, const std::string& one = "") {
    return Withholding{phrase(reason, language, one) + " " + phrase(Phrase::call_for_the_dose, language), true};
  };
  const auto not_yet = [&](Phrase reason, const std::string& one = "") {
    return Withholding{phrase(reason, language, one), false, true};
  };
  if (is_asked_again(scene)) return Withholding{phrase(Phrase::insulin_asked_first, language), false};
  const InsulinLimits& limits = *dose.insulin;
  const auto* apart = limit_of<Duration>(scene, limits.no_stacking);
  // What the walk itself has seen go in is no order any more, whoever said how much it was.
  if (const std::optional<Instant> given = insulin_of_this_night(scene.protocol, scene.episode);
      given && apart != nullptr && scene.now - *given < *apart)
    return not_yet(Phrase::insulin_too_soon,
                   text_from_clock_time(clock_time_of(wall(scene.episode.clock, *given + *apart))));
  // What they said may have gone in already; a dose of the table beside it would be a second one.
  if (scene.episode.insulin_said) return Withholding{phrase(Phrase::insulin_clinic_said, language), true};
  if (const std::optional<Phrase> reason = not_for_this_child(scene)) {
    Withholding withheld = because(*reason);
    withheld.table_first = true;
    return withheld;
  }
  if (somebody_else_may_have_dosed(scene)) return because(Phrase::insulin_somebody_else);

  const std::optional<Instant> last = last_rapid_insulin(scene);
  if (!last || apart == nullptr) return because(Phrase::insulin_last_unknown);
  if (scene.now - *last < *apart) {
    const Moment next = wall(scene.episode.clock, *last + *apart);
    return not_yet(Phrase::insulin_too_soon, text_from_clock_time(clock_time_of(next)));
  }

  const std::optional<FactId> fact = scene.protocol.fact_named("glucose");
  const std::optional<Known> known = fact ? scene.episode.facts[fact->index] : std::nullopt;
  const auto* reading = known ? std::get_if<Glucose>(&known->value) : nullptr;
  const auto* fresh = limit_of<Duration>(scene, limits.fresh);
  const auto* floor = limit_of<GlucoseLimit>(scene, limits.floor);
  if (reading == nullptr || floor == nullptr) return because(Phrase::insulin_no_reading);
  if (fresh == nullptr || scene.now - known->learned > *fresh) return not_yet(Phrase::insulin_reading_old);
  if (compare(*reading, *floor) < 0)
    return because(Phrase::insulin_below_floor, said(Limit{*floor}, scene.child.unit, language));
  return std::nullopt;
}

}  // namespace rushlight
