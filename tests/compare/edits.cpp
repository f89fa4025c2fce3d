#include "edits.hpp"

#include <algorithm>

namespace rushlight::tests {
namespace {

StepId any_step(const Protocol& protocol, Dice& dice) {
  return StepId{static_cast<std::uint16_t>(dice.below(protocol.steps.size()))};
}

struct Moved {
  Dice& dice;
  bool up() const { return dice.chance(50); }

  void operator()(GlucoseLimit& limit) const {
    const int by = 1 + static_cast<int>(dice.below(8));
    const Decimal mg = Decimal::whole(by), mmol = Decimal::of_micros(by * 100'000 / 2 + 100'000);
    const bool raise = up();
    limit.mg_per_dl = raise ? limit.mg_per_dl + mg : limit.mg_per_dl - mg;
    limit.mmol_per_l = raise ? limit.mmol_per_l + mmol : limit.mmol_per_l - mmol;
  }
  void operator()(BloodKetones& ketones) const {
    const Decimal by = Decimal::of_micros(100'000 * static_cast<std::int64_t>(1 + dice.below(5)));
    const Decimal now = ketones.in(kMillimolePerLitre);
    ketones = BloodKetones{up() || now < by ? now + by : now - by, kMillimolePerLitre};
  }
  void operator()(Duration& time) const { time = up() ? time * 2 : time / 2 + Duration{60}; }
  void operator()(int& count) const { count = up() || count < 2 ? count + 1 : count - 1; }
  void operator()(BodyWeight& weight) const {
    weight = BodyWeight{weight.in(kKilogram) + Decimal::whole(1 + static_cast<int>(dice.below(5))), kKilogram};
  }
  void operator()(Age& age) const { age = Age::of_months(age.months() + 1 + static_cast<int>(dice.below(12))); }
  void operator()(Quantity& quantity) const {
    quantity.value = Decimal::of_micros(quantity.value.micros() * (up() ? 3 : 1) / 2);
  }
  void operator()(ClockTime& time) const { time = ClockTime::of_minutes((time.minutes() + 60) % (24 * 60)); }
};

std::string move_number(Protocol& protocol, Dice& dice) {
  Threshold& threshold = dice.one_of(protocol.thresholds);
  std::visit(Moved{dice}, dice.one_of(threshold.bands).value);
  return "number " + threshold.name;
}

Conditions* some_conditions(Protocol& protocol, Dice& dice, std::string& where) {
  if (dice.chance(15) && !protocol.watch.empty()) {
    Watch& watch = dice.one_of(protocol.watch);
    where = "watch " + watch.name;
    return &watch.when;
  }
  Step& step = protocol.steps[any_step(protocol, dice).index];
  if (step.rules.empty()) return nullptr;
  Rule& rule = dice.one_of(step.rules);
  where = "rule " + rule.name;
  return &rule.when;
}

std::string turn_comparison(Protocol& protocol, Dice& dice) {
  std::string where;
  Conditions* when = some_conditions(protocol, dice, where);
  if (when == nullptr || when->empty()) return "";
  Condition& condition = dice.one_of(*when);
  if (auto* compares = std::get_if<Compares>(&condition.test)) {
    constexpr Comparison kTurned[] = {Comparison::at_most, Comparison::above, Comparison::at_least, Comparison::below};
    compares->comparison = kTurned[static_cast<std::size_t>(compares->comparison)];
    return "comparison in " + where;
  }
  if (auto* is = std::get_if<Is>(&condition.test)) {
    is->options ^= dice.chance(30) ? kUnknownBit : std::uint64_t{1} << dice.below(3);
    return "options in " + where;
  }
  return "";
}

std::string drop_condition(Protocol& protocol, Dice& dice) {
  std::string where;
  Conditions* when = some_conditions(protocol, dice, where);
  if (when == nullptr || when->size() < 2) return "";
  when->erase(when->begin() + static_cast<std::ptrdiff_t>(dice.below(when->size())));
  return "condition gone from " + where;
}

std::string move_rules(Protocol& protocol, Dice& dice) {
  Step& step = protocol.steps[any_step(protocol, dice).index];
  if (step.rules.size() < 2) return "";
  const std::size_t at = dice.below(step.rules.size() - 1);
  if (step.rules[at + 1].otherwise) return "";
  if (dice.chance(50)) {
    std::swap(step.rules[at], step.rules[at + 1]);
    return "rules swapped in " + step.name;
  }
  step.rules.erase(step.rules.begin() + static_cast<std::ptrdiff_t>(at));
  return "rule gone from " + step.name;
}

std::string aim_elsewhere(Protocol& protocol, Dice& dice) {
  const StepId aim = any_step(protocol, dice);
  if (dice.chance(15) && !protocol.watch.empty()) {
    Watch& watch = dice.one_of(protocol.watch);
    watch.go = aim;
    return "watch " + watch.name + " leads to " + protocol[aim].name;
  }
  Step& step = protocol.steps[any_step(protocol, dice).index];
  if (dice.chance(30) && step.wait) {
    step.wait->go = aim;
    return "nobody answers in " + step.name + " leads to " + protocol[aim].name;
  }
  if (step.rules.empty()) return "";
  Rule& rule = dice.one_of(step.rules);
  rule.go = aim;
  return "rule " + rule.name + " leads to " + protocol[aim].name;
}

std::string other_outcome(Protocol& protocol, Dice& dice) {
  Action& action = dice.one_of(protocol.actions);
  const StepId aim = any_step(protocol, dice);
  for (std::optional<OutcomeRule>& rule : action.on) {
    if (!rule || !dice.chance(50)) continue;
    rule->go = rule->go && dice.chance(50) ? std::nullopt : std::optional<StepId>(aim);
    return "an outcome of " + action.name;
  }
  return "";
}

std::string other_step(Protocol& protocol, Dice& dice) {
  Step& step = protocol.steps[any_step(protocol, dice).index];
  switch (dice.below(5)) {
    case 0:
      step.urgency = static_cast<Urgency>((static_cast<int>(step.urgency) + 1 + static_cast<int>(dice.below(3))) % 4);
      return "urgency of " + step.name;
    case 1:
      if (step.actions.size() < 2) return "";
      step.actions.erase(step.actions.begin() + static_cast<std::ptrdiff_t>(dice.below(step.actions.size())));
      if (step.wait && step.wait->after &&
          std::find(step.actions.begin(), step.actions.end(), *step.wait->after) == step.actions.end())
        return "";
      return "action gone from " + step.name;
    case 2: {
      if (protocol.watch.empty()) return "";
      const WatchId watch{static_cast<std::uint16_t>(dice.below(protocol.watch.size()))};
      const auto found = std::find(step.handles.begin(), step.handles.end(), watch);
      if (found != step.handles.end()) {
        step.handles.erase(found);
      } else {
        step.handles.push_back(watch);
      }
      return "handles of " + step.name;
    }
    case 3:
      if (step.asks.size() < 2) return "";
      std::swap(step.asks.front(), step.asks.back());
      return "questions in another order in " + step.name;
    default:
      break;
  }
  for (Rule& rule : step.rules) {
    if (rule.resets.empty()) continue;
    rule.resets.clear();
    return "nothing set back by " + rule.name;
  }
  return "";
}

}  // namespace

std::string edited(Protocol& protocol, Dice& dice) {
  switch (dice.below(8)) {
    case 0:
    case 1:
      return move_number(protocol, dice);
    case 2:
      return turn_comparison(protocol, dice);
    case 3:
      return drop_condition(protocol, dice);
    case 4:
      return move_rules(protocol, dice);
    case 5:
      return aim_elsewhere(protocol, dice);
    case 6:
      return other_outcome(protocol, dice);
    default:
      return other_step(protocol, dice);
  }
}

}  // namespace rushlight::tests
