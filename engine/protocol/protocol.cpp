#include "protocol/protocol.hpp"

#include <algorithm>

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

bool reads_the_past(const Protocol& protocol) {
  const auto reads = [](const Part& part) { return part.past.has_value(); };
  const auto gives = [](const Dose& dose) { return dose.insulin.has_value(); };
  return std::any_of(protocol.parts.begin(), protocol.parts.end(), reads) ||
         std::any_of(protocol.doses.begin(), protocol.doses.end(), gives);
}

std::optional<FactId> Protocol::fact_named(std::string_view wanted) const { return named<FactId>(facts, wanted); }
std::optional<ActionId> Protocol::action_named(std::string_view wanted) const {
  return named<ActionId>(actions, wanted);
}
std::optional<StepId> Protocol::step_named(std::string_view wanted) const { return named<StepId>(steps, wanted); }

}  // namespace rushlight
