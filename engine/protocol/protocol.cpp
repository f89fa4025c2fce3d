#include "protocol/protocol.hpp"

namespace rushlight {

namespace {

template <class IdType, class Thing>
std::optional<IdType> named(const std::vector<Thing>& things, std::string_view name) {
  for (std::size_t i = 0; i < things.size(); ++i) {
    if (things[i].name == name) return IdType{static_cast<std::uint16_t>(i)};
  }
  return std::nullopt;
}

}  // namespace

const Part* Protocol::part_of(StepId step) const {
  for (const Part& part : parts) {
    if (step.index >= part.first_step && step.index < part.first_step + part.steps) return &part;
  }
  return nullptr;
}

std::optional<FactId> Protocol::fact_named(std::string_view wanted) const { return named<FactId>(facts, wanted); }
std::optional<ActionId> Protocol::action_named(std::string_view wanted) const {
  return named<ActionId>(actions, wanted);
}
std::optional<StepId> Protocol::step_named(std::string_view wanted) const { return named<StepId>(steps, wanted); }

}  // namespace rushlight
