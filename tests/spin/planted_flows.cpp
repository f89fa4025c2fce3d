#include "tests/spin/planted_flows.hpp"

#include "tests/naive_walk/parts.hpp"

namespace rushlight::tests {

using namespace naive;

namespace {

constexpr std::uint64_t kYes = 1, kNo = 2;

StepId id_of(std::size_t place) { return StepId{static_cast<std::uint16_t>(place)}; }

/// asks - looks - treats (waits, counts) - calls; back to the first question.
class Rounds {
 public:
  Rounds() : protocol_(bare_protocol()) { timer_ = add_timer(protocol_); }

  FactId question(std::size_t number) {
    return add_fact(protocol_, ("q" + std::to_string(number)).c_str(), FactKind::choice, {"yes", "no"});
  }
  StepId step(const std::string& name, Urgency urgency = Urgency::home) {
    add_step(protocol_, name, urgency);
    return id_of(protocol_.steps.size() - 1);
  }
  Step& at(StepId id) { return protocol_.steps[id.index]; }
  void ask(StepId id, FactId fact) { at(id).asks.push_back(Ask{fact, std::nullopt, nowhere()}); }
  void take_back(StepId id, FactId fact) {
    at(id).asks.push_back(Ask{fact, add_time(protocol_, Duration{600}), nowhere()});
  }
  void wait(StepId id, Duration lasts, Duration overdue, StepId go) {
    at(id).wait = Wait{
        timer_, add_time(protocol_, lasts), std::nullopt, std::nullopt, std::nullopt, add_time(protocol_, overdue), go, nowhere()};
  }
  void rule(StepId id, StepId go, Conditions conditions = {}) {
    at(id).rules.push_back(rule_to(go, std::move(conditions)));
  }
  CounterId counter() { return add_counter(protocol_); }
  Condition at_least(CounterId counter, int number) {
    return when(CountedAtLeast{counter, add_threshold(protocol_, ThresholdKind::count, number)});
  }
  Protocol made() { return std::move(protocol_); }

 private:
  Protocol protocol_;
  TimerId timer_{};
};

}  // namespace

std::string_view name_of(Planted planted) {
  constexpr std::string_view kNames[] = {"nothing planted", "no limit",        "reset each time", "limit for some",
                                         "no wait",         "answered before", "beyond limit",    "orphan"};
  return kNames[static_cast<std::size_t>(planted)];
}

PlantedFlow planted_flow(Dice& dice, Planted planted) {
  Rounds rounds;
  const int facts = dice.between(2, 4), limit = dice.between(2, 4);
  std::vector<FactId> questions;
  for (int i = 0; i < facts; ++i) questions.push_back(rounds.question(static_cast<std::size_t>(i)));
  std::vector<StepId> asking, looking;
  for (int i = 0; i < facts; ++i) asking.push_back(rounds.step("ask-" + std::to_string(i)));
  for (int i = 0; i < facts; ++i) looking.push_back(rounds.step("look-" + std::to_string(i)));
  const StepId treat = rounds.step("treat"), again = rounds.step("again");
  const StepId call = rounds.step("call", Urgency::clinic_now), well = rounds.step("well", Urgency::clinic_now);
  const CounterId treatments = rounds.counter();
  rounds.at(treat).counts = treatments;
  rounds.at(call).ends = rounds.at(well).ends = true;
  const auto some_minutes = [&] { return Duration{60 * dice.between(5, 30)}; };

  for (std::size_t i = 0; i < asking.size(); ++i) {
    rounds.ask(asking[i], questions[i]);
    const StepId next = i + 1 < asking.size() ? asking[i + 1] : looking.front();
    rounds.rule(asking[i], call, {is(questions[i], kUnknownBit)});
    if (dice.chance(30) && i > 0) rounds.rule(asking[i], looking[i], {is(questions[i], kYes)});
    rounds.rule(asking[i], next);
  }
  for (std::size_t i = 0; i < looking.size(); ++i) {
    const std::size_t asked = i == 0 || dice.chance(50) ? i : looking.size() - 1 - i;
    rounds.take_back(looking[i], questions[asked]);
    const StepId next = i + 1 < looking.size() ? looking[i + 1] : planted == Planted::no_wait ? looking.front() : treat;
    rounds.rule(looking[i], i == 0 || dice.chance(30) ? again : treat, {is(questions[asked], kYes)});
    rounds.rule(looking[i], call, {is(questions[asked], kUnknownBit)});
    rounds.rule(looking[i], next, {is(questions[asked], kNo)});
  }
  // Two places to wait: `treat` counts, and `again` always leads on to it.
  rounds.wait(again, some_minutes(), some_minutes(), call);
  rounds.rule(again, treat);

  rounds.wait(treat, some_minutes(), some_minutes(), call);
  rounds.ask(treat, questions.front());
  PlantedFlow flow{{}, planted, false, false, std::nullopt};
  Conditions enough{rounds.at_least(treatments, limit)};
  if (planted == Planted::limit_for_some) enough.push_back(is(questions.front(), kYes));
  if (planted != Planted::no_limit) rounds.rule(treat, call, enough);
  rounds.rule(treat, well, {is(questions.front(), kUnknownBit)});
  if (planted == Planted::answered_before) {
    // Whoever comes to `sure` has just said yes.
    const StepId sure = rounds.step("sure"), lost = rounds.step("lost");
    rounds.rule(treat, sure, {is(questions.front(), kYes)});
    rounds.take_back(sure, questions.front());
    rounds.rule(sure, lost, {is(questions.front(), kNo | kUnknownBit)});
    rounds.rule(sure, asking.front());
    rounds.at(lost).ends = true;
    rounds.at(lost).urgency = Urgency::clinic_now;
    flow.unreachable = lost;
  }
  if (planted == Planted::beyond_limit) {
    const StepId lost = rounds.step("lost", Urgency::clinic_now);
    rounds.at(lost).ends = true;
    rounds.rule(again, lost, {rounds.at_least(treatments, limit + 1)});
    std::swap(rounds.at(again).rules.front(), rounds.at(again).rules.back());
    flow.unreachable = lost;
  }
  if (planted == Planted::orphan) {
    const StepId lost = rounds.step("lost", Urgency::clinic_now);
    rounds.at(lost).ends = true;
    flow.unreachable = lost;
  }
  rounds.rule(treat, asking.front());
  if (planted == Planted::reset_each_time) rounds.at(treat).rules.back().resets.push_back(treatments);
  flow.round_without_wait = planted == Planted::no_wait;
  flow.goes_round = flow.round_without_wait || planted == Planted::no_limit || planted == Planted::reset_each_time ||
                    planted == Planted::limit_for_some;
  flow.flow = Flow{std::string(name_of(planted)),
                   rounds.made(),
                   Scenario{{}, Urgency::clinic_now},
                   GlucoseUnit::mg_per_dl,
                   {},
                   {},
                   false};
  return flow;
}

Flow carrying_flow(std::size_t facts, int most_rounds) {
  Rounds rounds;
  std::vector<FactId> questions;
  std::vector<StepId> asking, looking, waiting;
  for (std::size_t i = 0; i < facts; ++i) questions.push_back(rounds.question(i));
  for (std::size_t i = 0; i < facts; ++i) asking.push_back(rounds.step("ask-" + std::to_string(i)));
  for (std::size_t i = 0; i < facts; ++i) looking.push_back(rounds.step("look-" + std::to_string(i)));
  for (std::size_t i = 0; i <= facts; ++i) waiting.push_back(rounds.step("wait-" + std::to_string(i)));
  const StepId call = rounds.step("call", Urgency::clinic_now);
  rounds.at(call).ends = true;
  const CounterId count = rounds.counter();
  rounds.at(asking.front()).counts = count;
  rounds.rule(asking.front(), call, {rounds.at_least(count, most_rounds + 1)});
  for (std::size_t i = 0; i < facts; ++i) {
    rounds.ask(asking[i], questions[i]);
    rounds.rule(asking[i], call, {is(questions[i], kUnknownBit)});
    rounds.rule(asking[i], i + 1 < facts ? asking[i + 1] : looking.front());
    rounds.take_back(looking[i], questions[facts - 1 - i]);
    rounds.rule(looking[i], waiting[i], {is(questions[facts - 1 - i], kYes)});
    rounds.rule(looking[i], i + 1 < facts ? looking[i + 1] : waiting.back());
  }
  for (std::size_t i = 0; i <= facts; ++i) {
    const Duration minutes{60 * static_cast<Duration::rep>(10 + i)};
    rounds.wait(waiting[i], minutes, Duration{300}, call);
    rounds.rule(waiting[i], asking.front());
  }
  return Flow{std::to_string(facts) + " answers carried",
              rounds.made(),
              Scenario{{}, Urgency::clinic_now},
              GlucoseUnit::mg_per_dl,
              {},
              {},
              false};
}

}  // namespace rushlight::tests
