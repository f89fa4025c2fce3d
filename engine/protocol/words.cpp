#include "protocol/words.hpp"

#include "protocol/child.hpp"
#include "protocol/step.hpp"
#include "protocol/threshold.hpp"

namespace rushlight {

namespace {

template <std::size_t N, class Enum>
std::string_view word(const std::array<std::string_view, N>& list, Enum value) {
  return list[static_cast<std::size_t>(value)];
}

}  // namespace

std::string_view name_of(ThresholdKind kind) { return word(words::kThresholdKinds, kind); }
std::string_view name_of(Urgency urgency) { return word(words::kUrgencies, urgency); }
std::string_view name_of(ActionKind kind) { return word(words::kActionKinds, kind); }
std::string_view name_of(Outcome outcome) { return word(words::kOutcomes, outcome); }
std::string_view name_of(Contact contact) { return word(words::kContacts, contact); }
std::string_view name_of(FoodKind kind) { return word(words::kFoodKinds, kind); }
std::string_view name_of(Delivery delivery) { return word(words::kDeliveries, delivery); }
std::string_view name_of(Strips strips) { return word(words::kStrips, strips); }
std::string_view name_of(RescueKind kind) { return word(words::kRescueKinds, kind); }

std::optional<FoodKind> food_kind_from(std::string_view name) {
  const auto place = words::place_of(words::kFoodKinds, name);
  if (!place) return std::nullopt;
  return static_cast<FoodKind>(*place);
}

std::vector<Outcome> outcomes_to_cover(ActionKind kind) {
  switch (kind) {
    case ActionKind::by_mouth:
    case ActionKind::fluid:
      return {Outcome::part, Outcome::refused, Outcome::vomited, Outcome::none_here, Outcome::wrong};
    case ActionKind::glucagon:
    case ActionKind::insulin:
      return {Outcome::part, Outcome::refused, Outcome::none_here, Outcome::wrong};
    case ActionKind::pump:
    case ActionKind::measure:
      return {Outcome::none_here};
    case ActionKind::position:
    case ActionKind::call_clinic:
    case ActionKind::call_emergency:
    case ActionKind::watch:
    case ActionKind::note:
      return {};
  }
  return {};
}

}  // namespace rushlight
