#include "episode/drinks.hpp"

#include <algorithm>

namespace rushlight {
namespace {

std::optional<Decimal> hourly_of(const Scene& scene, const Part& part) {
  if (!part.hourly_fluid) return std::nullopt;
  const DoseResult dose = dose_for(scene, *part.hourly_fluid, scene.episode.language);
  return dose.amount ? std::optional<Decimal>(dose.amount->value) : std::nullopt;
}

/// The amount of each hour by the protocol of the step; where it names none, by one that does: drinks go on counting
/// during a visit to another protocol.
std::optional<Decimal> hourly(const Scene& scene) {
  if (const Part* here = scene.protocol.part_of(scene.episode.step)) {
    if (const std::optional<Decimal> amount = hourly_of(scene, *here)) return amount;
  }
  for (const Part& part : scene.protocol.parts) {
    if (const std::optional<Decimal> amount = hourly_of(scene, part)) return amount;
  }
  return std::nullopt;
}

/// To the steps of what the screen asks for: "120 mL by 04:10" beside a goal of 122 mL would be two goals.
Decimal as_asked_for(const Scene& scene, Decimal goal) {
  for (const ActionId id : scene.protocol[scene.episode.step].actions) {
    const Action& action = scene.protocol[id];
    if (action.kind != ActionKind::fluid || !action.dose) continue;
    const Dose& dose = scene.protocol[*action.dose];
    const auto* step = std::get_if<Quantity>(&value_in(scene.protocol[dose.to], scene.context));
    if (step != nullptr) return rounded(goal, dose.round, step->value);
  }
  return rounded(goal, RoundDirection::nearest, Decimal::whole(1));
}

}  // namespace

std::optional<ShownDrinks> drinks_of(const Scene& scene) {
  if (!scene.episode.drinking_since) return std::nullopt;
  const std::optional<Decimal> each_hour = hourly(scene);
  if (!each_hour) return std::nullopt;
  Decimal drunk;
  bool told = false;
  for (const Given& given : scene.episode.given) {
    told = told || scene.protocol[given.action].kind == ActionKind::fluid;
    const bool stayed_down = given.outcome == Outcome::given || given.outcome == Outcome::part;
    if (stayed_down && given.amount && given.amount->unit == Unit::millilitre) drunk = drunk + given.amount->value;
  }
  const Instant until =
      scene.episode.ended ? std::max(scene.episode.entered, *scene.episode.drinking_since) : scene.now;
  const Decimal goal = as_asked_for(scene, within(*each_hour, until - *scene.episode.drinking_since));
  return ShownDrinks{Quantity{drunk, Unit::millilitre}, Quantity{goal, Unit::millilitre},
                     wall(scene.episode.clock, *scene.episode.drinking_since), told};
}

}  // namespace rushlight
