#include "tests/spin/verdicts.hpp"

#include <algorithm>
#include <ostream>
#include <stdexcept>

#include "verify/graph.hpp"
#include "verify/nights.hpp"

namespace rushlight::tests {

namespace {

constexpr std::int64_t kTwoDays = 48 * 3600;

std::string as_late_as(Promptness answers) { return answers == Promptness::late ? "late " : ""; }

}  // namespace

std::set<std::string> ways_of(const Protocol& protocol) {
  std::set<std::string> ways;
  for (std::uint16_t s = 0; s < protocol.steps.size(); ++s) {
    const StepId id{s};
    const Step& step = protocol[id];
    const auto add = [&](Leading::By by, std::size_t index, Outcome outcome = Outcome::given) {
      ways.insert(moving(protocol, id, by, static_cast<std::uint16_t>(index), outcome));
    };
    ways.insert(entering(protocol, id));
    if (step.ends) continue;
    for (std::size_t r = 0; r < step.rules.size(); ++r) {
      add(Leading::By::rule, r);
      if (step.rules[r].early && step.wait && !step.rules[r].when.empty()) add(Leading::By::early, r);
    }
    for (const ActionId action : step.actions) {
      for (int outcome = 0; outcome < kOutcomes; ++outcome) {
        const auto& rule = protocol[action].on[static_cast<std::size_t>(outcome)];
        if (rule && rule->go) add(Leading::By::outcome, action.index, static_cast<Outcome>(outcome));
      }
    }
    if (step.wait) add(Leading::By::overdue, 0);
    for (std::uint16_t w = 0; w < protocol.watch.size(); ++w) {
      const auto is_this = [&](WatchId each) { return each.index == w; };
      if (std::none_of(step.handles.begin(), step.handles.end(), is_this)) add(Leading::By::watch, w);
    }
  }
  return ways;
}

std::optional<std::set<std::string>> proven_events(const Flow& flow, Promptness answers) {
  const Protocol& protocol = flow.protocol;
  const Space space(protocol, flow.unit, flow.scenario.stays);
  Diagrams diagrams(space.sizes());
  std::optional<std::vector<CounterId>> counters;
  if (!flow.loose.empty()) {
    counters.emplace();
    for (std::uint16_t c = 0; c < protocol.counters.size(); ++c) {
      const auto is_this = [&](CounterId id) { return id.index == c; };
      if (std::none_of(flow.loose.begin(), flow.loose.end(), is_this)) counters->push_back(CounterId{c});
    }
  }
  Program program(space, diagrams, {flow.scenario.stays, answers, counters});
  const Nights nights(space, diagrams, program, protocol.start, std::vector<bool>(protocol.steps.size(), false), false,
                      kMostVisits);
  if (nights.gave_up()) return std::nullopt;
  std::set<std::string> events;
  for (const Nights::Visit& visit : nights.visits()) {
    events.insert(entering(protocol, visit.step));
    for (const Leading& move : program.moves_of(visit.step)) {
      if (move.by == Leading::By::back || program.after(visit.set, visit.step, move) == Diagrams::kNone) continue;
      events.insert(moving(protocol, visit.step, move.by, move.index, move.outcome));
    }
  }
  return events;
}

std::set<std::string> seen_events(const Pan& pan, std::size_t flow, Promptness answers) {
  return pan.walked(flow, {as_late_as(answers) + "watching waiting"}).events;
}

std::ostream& operator<<(std::ostream& out, const NightVerdict& verdict) {
  constexpr const char* kNames[] = {"comes in time", "ends", "leaves", "goes round", "too large"};
  return out << kNames[static_cast<std::size_t>(verdict.verdict)] << " after " << verdict.most.count() << " s";
}

NightVerdict proven_verdict(const Flow& flow, Promptness answers) {
  const WorstTime worst = worst_time(flow.protocol, flow.scenario, answers, flow.unit);
  return {worst.verdict, worst.verdict == WorstTime::Verdict::within ? worst.most : Duration{0}};
}

NightVerdict seen_verdict(const Pan& pan, std::size_t flow, Promptness answers) {
  const std::string how = as_late_as(answers) + "stopping watching waiting";
  if (pan.walked(flow, {how, 0, true}).round) return {WorstTime::Verdict::goes_round};
  const PanReport once = pan.walked(flow, {how});
  if (once.ended) return {WorstTime::Verdict::ends};
  if (once.left) return {WorstTime::Verdict::leaves};
  const PanReport timed = pan.walked(flow, {how + " timed", kTwoDays});
  if (timed.went_on) throw std::runtime_error("a night is longer than SPIN followed it");
  return {WorstTime::Verdict::within, Duration{timed.last_call.value_or(0)}};
}

bool sees_round(const Pan& pan, std::size_t flow, int left_out) {
  PanWalk walk{"late waiting", 0, true};
  walk.without = left_out;
  return pan.walked(flow, walk).round;
}

bool sees_round_without_wait(const Pan& pan, std::size_t flow) { return pan.walked(flow, {"late", 0, true}).round; }

std::vector<Flow> loop_flows(const Protocol& protocol, const std::string& name) {
  const Graph graph = graph_of(protocol);
  std::vector<std::size_t> all(graph.ways.size());
  for (std::size_t i = 0; i < all.size(); ++i) all[i] = i;
  std::vector<Flow> flows;
  for (const std::vector<StepId>& group : loops_over(protocol, graph, all)) {
    Flow flow{name + ", loop of " + protocol[group.front()].name,
              protocol,
              Scenario{{}, Urgency::emergency},
              GlucoseUnit::mg_per_dl,
              {},
              group,
              true};
    std::set<std::uint16_t> read;
    for (const StepId step : group) {
      for (const Rule& rule : protocol[step].rules) {
        for (const Condition& condition : rule.when) {
          if (const auto* counted = std::get_if<CountedAtLeast>(&condition.test)) read.insert(counted->counter.index);
        }
      }
    }
    for (std::uint16_t c = 0; c < protocol.counters.size(); ++c) {
      if (read.count(c) == 0) flow.loose.push_back(CounterId{c});
    }
    flows.push_back(std::move(flow));
  }
  return flows;
}

}  // namespace rushlight::tests
