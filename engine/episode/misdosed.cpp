#include "episode/misdosed.hpp"

#include <algorithm>

#include "episode/dose_result.hpp"
#include "episode/insulin.hpp"

namespace rushlight {
namespace {

bool went_in(Outcome outcome) { return outcome == Outcome::given || outcome == Outcome::part; }

/// What of this action's dose was stated and has not gone in yet, when all that went in here so far was told as a part
/// of it.
std::optional<Quantity> rest_of(const Episode& episode, ActionId action) {
  std::optional<Quantity> rest;
  for (const Given& given : episode.given) {
    if (given.action != action || given.told_by <= episode.entered_by) continue;
    if (given.outcome != Outcome::part || !given.stated) return std::nullopt;
    if (!rest) rest = given.stated;
    if (given.amount && given.amount->unit == rest->unit) rest->value = rest->value - given.amount->value;
  }
  return rest;
}

bool is_more(const Deed& deed, const Quantity& stated) {
  return deed.amount && (deed.amount->unit != stated.unit || deed.amount->value > stated.value);
}

/// Rapid-acting insulin was given too short a time before or after this moment.
bool still_works(const Scene& here, const Dose& dose, Instant when) {
  const auto* apart = std::get_if<Duration>(&value_in(here.protocol[dose.insulin->no_stacking], here.context));
  if (apart == nullptr) return false;
  const auto too_close = [&](Instant other) { return std::max(when, other) - std::min(when, other) < *apart; };
  for (const Given& given : here.episode.given) {
    const bool in = went_in(given.outcome) || given.outcome == Outcome::wrong;
    if (in && here.protocol[given.action].kind == ActionKind::insulin && too_close(given.when)) return true;
  }
  const std::optional<Moment>& past = here.episode.past.last_insulin;
  if (past && too_close(past->utc + here.episode.clock.lost)) return true;
  // Told by somebody, and the step says to wait: the dose is not the clinic's to say.
  const std::optional<Withholding> withheld = insulin_withheld(here, dose, here.episode.language);
  const std::optional<Instant> last = last_rapid_insulin(here);
  return withheld && !withheld->clinic_decides && last && too_close(*last);
}

}  // namespace

Outcome counted_outcome(const Scene& before, const Deed& deed, Instant when) {
  const Action& action = before.protocol[deed.action];
  const bool medicine = action.kind == ActionKind::insulin || action.kind == ActionKind::glucagon;
  if (!medicine || !action.dose || !went_in(deed.outcome) || is_nothing(deed.amount)) return deed.outcome;
  const Dose& dose = before.protocol[*action.dose];
  if (const std::optional<Quantity> rest = rest_of(before.episode, deed.action))
    return is_more(deed, *rest) ? Outcome::wrong : deed.outcome;
  const std::optional<Quantity> stated = dose_for(before, *action.dose, before.episode.language).amount;
  if (stated && is_more(deed, *stated)) return Outcome::wrong;
  if (dose.insulin && still_works(before, dose, when)) return Outcome::wrong;
  return deed.outcome;
}

}  // namespace rushlight
