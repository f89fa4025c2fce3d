#include "tiny.hpp"

#include "parts.hpp"

namespace rushlight::naive {

namespace {

constexpr std::uint64_t kYes = 1;

struct Facts {
  FactId a, b;
};

void shape_step(Protocol& protocol, StepId id, std::size_t shape, Facts facts) {
  const auto digit = [&shape] {
    const std::size_t value = shape % 3;
    shape /= 3;
    return value;
  };
  const std::size_t asks = digit(), wait = digit();
  const auto step_of = [](std::size_t place) { return StepId{static_cast<std::uint16_t>(place)}; };
  const StepId when_yes = step_of(digit()), otherwise = step_of(digit());
  const StepId end{2};
  const ActionId action = add_action(protocol, id, ActionKind::by_mouth);
  protocol.actions[action.index].on[static_cast<std::size_t>(Outcome::refused)] = OutcomeRule{end, nowhere()};
  Step& step = protocol.steps[id.index];
  Conditions all_yes;
  for (std::size_t i = 0; i < asks; ++i) {
    const FactId fact = i == 0 ? facts.a : facts.b;
    step.asks.push_back(Ask{fact, {}, nowhere()});
    all_yes.push_back(is(fact, kYes));
  }
  step.rules.push_back(rule_to(when_yes, all_yes));
  step.rules.push_back(rule_to(otherwise));
  if (wait > 0) {
    step.wait = Wait{TimerId{0}, ThresholdId{1}, {}, {}, {}, ThresholdId{1}, end, nowhere()};
    step.rules.front().early = asks > 0 && id.index == 1;  // of the two steps one shows it
    if (wait == 2) step.wait->after = action, step.wait->start_within = ThresholdId{0};
  }
}

}  // namespace

Protocol tiny_protocol(std::size_t number) {
  Protocol protocol = bare_protocol();
  const Facts facts{add_fact(protocol, "a", FactKind::choice, {"yes", "no"}),
                    add_fact(protocol, "b", FactKind::choice, {"yes", "no"})};
  add_time(protocol, Duration{1});
  add_time(protocol, Duration{2});
  add_timer(protocol);
  for (const char* name : {"first", "second"}) add_step(protocol, name, Urgency::home);
  add_step(protocol, "end", Urgency::home).ends = true;
  const std::size_t watch = number % kWatchShapes;
  number /= kWatchShapes;
  shape_step(protocol, StepId{0}, number % kStepShapes, facts);
  shape_step(protocol, StepId{1}, number / kStepShapes, facts);
  if (watch == 1) protocol.watch.push_back(Watch{"b", {is(facts.b, kYes)}, StepId{1}, SourceId{0}, nowhere()});
  if (watch == 1) protocol.steps[1].handles.push_back(WatchId{0});
  return protocol;
}

}  // namespace rushlight::naive
