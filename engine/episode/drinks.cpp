#include "episode/drinks.hpp"

namespace rushlight {
namespace {

/// The amount of each hour by the part that names one: drinks go on counting during a visit to another protocol.
std::optional<Decimal> hourly(const Scene& scene) {
  for (const Part& part : scene.protocol.parts) {
    if (!part.hourly_fluid) continue;
    const DoseResult dose = dose_for(scene, *part.hourly_fluid, scene.episode.language);
    if (dose.amount) return dose.amount->value;
  }
  return std::nullopt;
}

}  // namespace

std::optional<ShownDrinks> drinks_of(const Scene& scene) {
  if (!scene.episode.drinking_since) return std::nullopt;
  const std::optional<Decimal> each_hour = hourly(scene);
  if (!each_hour) return std::nullopt;
  Decimal drunk;
  for (const Given& given : scene.episode.given) {
    const bool stayed_down = given.outcome == Outcome::given || given.outcome == Outcome::part;
    if (stayed_down && given.amount && given.amount->unit == Unit::millilitre) drunk = drunk + given.amount->value;
  }
  const std::int64_t seconds = (scene.now - *scene.episode.drinking_since).count();
  const Decimal hours = quotient(Decimal::whole(seconds), Decimal::whole(3600));
  const Decimal goal = rounded(product(*each_hour, hours), RoundDirection::nearest, Decimal::whole(1));
  return ShownDrinks{Quantity{drunk, Unit::millilitre}, Quantity{goal, Unit::millilitre},
                     wall(scene.episode.clock, *scene.episode.drinking_since)};
}

}  // namespace rushlight
