#include <algorithm>
#include <array>
#include <boost/test/unit_test.hpp>
#include <functional>
#include <random>

#include "tests/protocol/small_protocol.hpp"
#include "verify/check.hpp"

// The slow judge of loops: it walks through all states (the step and what the counters say) of small random protocols,
// with every answer at every question, and looks for a way round. A protocol that has one must not pass the check. The
// other way is not claimed: the check may refuse a loop that only a cleverer argument would bound.

using namespace rushlight;
using namespace rushlight::tests;

namespace {

constexpr unsigned kLoopsSeed = 20260302;
constexpr int kProtocols = 3000;
constexpr int kCounters = 2;
constexpr int kMostCounted = 2;  // of every counter, which stays there

class RandomLoops {
 public:
  explicit RandomLoops(unsigned seed) : random_(seed), base_(resolved()) {}

  Protocol next() {
    Protocol protocol = base_;
    protocol.counters = {Counter{"a", {}}, Counter{"b", {}}};
    protocol.steps.clear();
    protocol.watch.clear();
    protocol.actions.clear();
    const std::size_t steps = 2 + below(3);
    for (std::size_t i = 0; i <= steps; ++i) protocol.steps.push_back(step(protocol, steps, i == steps));
    return protocol;
  }

 private:
  std::uint64_t below(std::uint64_t end) { return random_() % end; }
  StepId any(std::size_t steps) { return StepId{static_cast<std::uint16_t>(below(steps + 1))}; }

  Step step(const Protocol& protocol, std::size_t steps, bool ends) {
    Step step{};
    step.name = "s" + std::to_string(protocol.steps.size());
    step.ends = ends;
    if (ends) return step;
    step.asks.push_back(Ask{*protocol.fact_named("symptoms"), std::nullopt, {}});
    if (below(2) == 0) step.counts = CounterId{static_cast<std::uint16_t>(below(kCounters))};
    if (below(4) == 0)
      step.wait =
          Wait{TimerId{0}, ThresholdId{1}, std::nullopt, std::nullopt, std::nullopt, ThresholdId{2}, any(steps), {}};
    const std::size_t rules = 1 + below(3);
    for (std::size_t i = 0; i < rules; ++i) {
      step.rules.push_back(rule(protocol, steps));
      const Rule& last = step.rules.back();
      // One that reads a counter too cannot be told (early-rule-untold).
      const bool told = last.when.size() == 1 && std::holds_alternative<Is>(last.when.front().test);
      step.rules.back().early = step.wait && told && below(2) == 0;
    }
    Rule last{};
    last.go = any(steps);
    step.rules.push_back(last);
    return step;
  }

  Rule rule(const Protocol& protocol, std::size_t steps) {
    Rule rule{};
    rule.go = any(steps);
    if (below(3) != 0) {
      rule.when.push_back(
          {CountedAtLeast{CounterId{static_cast<std::uint16_t>(below(kCounters))}, ThresholdId{4}}, {}});
      if (below(2) == 0) rule.go = StepId{static_cast<std::uint16_t>(steps)};
    }
    if (rule.when.empty() || below(4) == 0)
      rule.when.push_back({Is{*protocol.fact_named("symptoms"), 1 + below(3)}, {}});
    if (below(6) == 0) rule.resets.push_back(CounterId{static_cast<std::uint16_t>(below(kCounters))});
    return rule;
  }

  std::mt19937 random_;
  Protocol base_;
};

using Counts = std::array<int, kCounters>;
struct State {
  std::uint16_t step;
  Counts counts;
  std::size_t place() const {
    std::size_t place = step;
    for (const int count : counts) place = place * (kMostCounted + 1) + static_cast<std::size_t>(count);
    return place;
  }
};

State entered(const Protocol& protocol, StepId step, Counts counts) {
  if (const auto counter = protocol[step].counts)
    counts[counter->index] = std::min(counts[counter->index] + 1, kMostCounted);
  return State{step.index, counts};
}

bool matches(const Rule& rule, const Counts& counts, std::uint64_t answer) {
  for (const Condition& condition : rule.when) {
    if (const auto* test = std::get_if<Is>(&condition.test)) {
      if ((test->options & answer) == 0) return false;
    } else if (counts[std::get<CountedAtLeast>(condition.test).counter.index] < kMostCounted) {
      return false;
    }
  }
  return true;
}

std::vector<State> next_of(const Protocol& protocol, const State& state) {
  std::vector<State> next;
  const Step& step = protocol.steps[state.step];
  if (step.wait) next.push_back(entered(protocol, step.wait->go, state.counts));
  // During the wait the early rules alone, whatever stands above them; afterwards all.
  for (const bool during_the_wait : {true, false}) {
    for (const std::uint64_t answer : {std::uint64_t{1}, std::uint64_t{2}, kUnknownBit}) {
      for (const Rule& rule : step.rules) {
        if ((during_the_wait && !rule.early) || !matches(rule, state.counts, answer)) continue;
        Counts counts = state.counts;
        for (const CounterId reset : rule.resets) counts[reset.index] = 0;
        next.push_back(entered(protocol, rule.go, counts));
        break;
      }
    }
  }
  return next;
}

bool goes_round(const Protocol& protocol) {
  std::vector<int> colour(protocol.steps.size() * (kMostCounted + 1) * (kMostCounted + 1), 0);
  const std::function<bool(const State&)> visit = [&](const State& state) {
    int& mine = colour[state.place()];
    if (mine != 0) return mine == 1;
    mine = 1;
    for (const State& next : next_of(protocol, state)) {
      if (visit(next)) return true;
    }
    colour[state.place()] = 2;
    return false;
  };
  for (std::uint16_t step = 0; step < protocol.steps.size(); ++step) {
    for (int a = 0; a <= kMostCounted; ++a) {
      for (int b = 0; b <= kMostCounted; ++b) {
        if (visit(State{step, {a, b}})) return true;
      }
    }
  }
  return false;
}

// Whether the steps lead to one another at all, whatever the counters say.
bool has_a_loop(const Protocol& protocol) {
  const std::size_t count = protocol.steps.size();
  std::vector<std::vector<bool>> leads(count, std::vector<bool>(count, false));
  for (std::size_t from = 0; from < count; ++from) {
    const Step& step = protocol.steps[from];
    if (step.wait) leads[from][step.wait->go.index] = true;
    for (const Rule& rule : step.rules) leads[from][rule.go.index] = true;
  }
  for (std::size_t over = 0; over < count; ++over) {
    for (std::size_t from = 0; from < count; ++from) {
      for (std::size_t to = 0; to < count; ++to)
        leads[from][to] = leads[from][to] || (leads[from][over] && leads[over][to]);
    }
  }
  for (std::size_t step = 0; step < count; ++step) {
    if (leads[step][step]) return true;
  }
  return false;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(judge)

BOOST_AUTO_TEST_CASE(no_protocol_that_can_go_round_for_ever_passes) {
  BOOST_TEST_MESSAGE("seed " << kLoopsSeed);
  RandomLoops loops(kLoopsSeed);
  int endless = 0, bounded = 0, refused_though_bounded = 0, bounded_with_a_loop = 0;
  for (int i = 0; i < kProtocols; ++i) {
    const Protocol protocol = loops.next();
    const std::vector<Finding> findings = check(protocol).findings;
    const bool refused = std::any_of(findings.begin(), findings.end(),
                                     [](const Finding& finding) { return finding.kind.is<LoopWithoutLimit>(); });
    const bool round = goes_round(protocol);
    BOOST_REQUIRE_MESSAGE(!round || refused,
                          "seed " << kLoopsSeed << ", protocol " << i << " goes round for ever and passes");
    (round ? endless : bounded) += 1;
    if (!round && refused) ++refused_though_bounded;
    if (!refused && has_a_loop(protocol)) ++bounded_with_a_loop;
  }
  BOOST_TEST_MESSAGE(kProtocols << " protocols: " << endless << " endless, " << bounded << " not, of which "
                                << refused_though_bounded << " refused all the same, and " << bounded_with_a_loop
                                << " loops that a counter ends");
  BOOST_TEST(endless > 300);
  BOOST_TEST(bounded_with_a_loop > 100);
}

BOOST_AUTO_TEST_SUITE_END()
