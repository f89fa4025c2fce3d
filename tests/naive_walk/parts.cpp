#include "parts.hpp"

#include "protocol/child.hpp"

namespace rushlight::naive {

FactId add_fact(Protocol& protocol, const char* name, FactKind kind, const std::vector<std::string>& options) {
  Fact fact{name, kind, options.size() == 2, protocol.facts.size() < kChildFacts, {}, {}, {}, nowhere()};
  for (const std::string& option : options) fact.options.push_back(Option{option, {}});
  protocol.facts.push_back(std::move(fact));
  return FactId{static_cast<std::uint16_t>(protocol.facts.size() - 1)};
}

Protocol bare_protocol() {
  Protocol protocol{};
  protocol.set = "drawn";
  protocol.name = "lot";
  protocol.languages = {Language::en, Language::es};
  protocol.sources.push_back(Source{"lot", "", "", "", "", true, false, nowhere()});
  protocol.start = StepId{0};
  add_fact(protocol, "age", FactKind::age);
  add_fact(protocol, "weight", FactKind::weight);
  add_fact(protocol, "total-daily-dose", FactKind::insulin);
  add_fact(protocol, "delivery", FactKind::choice, {"injections", "pump", "automatic-pump"});
  add_fact(protocol, "rescue", FactKind::choice, {"nasal", "injection", "premixed", "expired", "none"});
  add_fact(protocol, "strips", FactKind::choice, {"blood", "urine", "none"});
  add_fact(protocol, "mini-dose-kit", FactKind::choice, {"yes", "no"});
  add_fact(protocol, "correction-known", FactKind::choice, {"yes", "no"});
  for (const char* past : {"lows-in-a-day", "days-low-at-this-hour", "days-high-at-this-hour", "protocols-before"})
    add_fact(protocol, past, FactKind::count);
  return protocol;
}

ThresholdId add_threshold(Protocol& protocol, ThresholdKind kind, Limit value) {
  const std::string name = "t" + std::to_string(protocol.thresholds.size());
  protocol.thresholds.push_back(Threshold{
      name, kind, {Band{{}, {}, {}, {}, {}, {}, std::move(value), nowhere()}}, "", "", {}, {}, SourceId{0}, nowhere()});
  return ThresholdId{static_cast<std::uint16_t>(protocol.thresholds.size() - 1)};
}

ThresholdId add_time(Protocol& protocol, Duration time) { return add_threshold(protocol, ThresholdKind::time, time); }

CounterId add_counter(Protocol& protocol) {
  protocol.counters.push_back(Counter{"c" + std::to_string(protocol.counters.size()), nowhere()});
  return CounterId{static_cast<std::uint16_t>(protocol.counters.size() - 1)};
}

TimerId add_timer(Protocol& protocol) {
  protocol.timers.push_back(Timer{"r" + std::to_string(protocol.timers.size()), {}, nowhere()});
  return TimerId{static_cast<std::uint16_t>(protocol.timers.size() - 1)};
}

Step& add_step(Protocol& protocol, const std::string& name, Urgency urgency) {
  protocol.steps.push_back(Step{name, urgency, {}, {}, {}, {}, {}, {}, {}, false, SourceId{0}, nowhere()});
  return protocol.steps.back();
}

ActionId add_action(Protocol& protocol, StepId step, ActionKind kind) {
  const ActionId id{static_cast<std::uint16_t>(protocol.actions.size())};
  protocol.actions.push_back(
      Action{"a" + std::to_string(id.index), kind, step, {}, {}, {}, {}, {}, {}, {}, {}, {}, SourceId{0}, nowhere()});
  protocol.steps[step.index].actions.push_back(id);
  return id;
}

Child plain_child() {
  Child child{};
  child.name = "Mara";
  child.birth = *day_from_text("2020-01-15");
  child.weight = BodyWeight{Decimal::whole(21), kKilogram};
  child.unit = GlucoseUnit::mg_per_dl;
  child.language = Language::en;
  return child;
}

}  // namespace rushlight::naive
