#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <fstream>
#include <future>
#include <iterator>
#include <map>

#include "read/resolved_from_xml.hpp"
#include "tests/sanitized.hpp"
#include "tests/spin/planted_flows.hpp"
#include "tests/spin/verdicts.hpp"
#include "verify/check.hpp"

// SPIN judges what is proven about nights: which steps and ways can be come to, which loops end, and how late the call
// can be. See promela.hpp for what its models share with the proofs and what they do not.

using namespace rushlight;
using namespace rushlight::tests;

namespace {

constexpr std::uint64_t kSeed = 20260302;

template <class K>
bool finds(const std::vector<Finding>& findings) {
  return std::any_of(findings.begin(), findings.end(), [](const Finding& finding) { return finding.kind.is<K>(); });
}

void judge_events(const Pan& pan, std::size_t number, const Flow& flow) {
  const auto proven = proven_events(flow, Promptness::late);
  BOOST_TEST_CONTEXT(flow.name << "\n" << naive::described(flow.protocol)) {
    BOOST_TEST_REQUIRE(proven.has_value());
    BOOST_TEST(seen_events(pan, number, Promptness::late) == *proven, boost::test_tools::per_element());
  }
}

Condition condition_of(const Protocol& protocol, const std::string& fact, Comparison comparison,
                       const std::string& limit) {
  for (std::uint16_t i = 0; i < protocol.thresholds.size(); ++i) {
    if (protocol.thresholds[i].name == limit)
      return Condition{Compares{protocol.fact_named(fact).value(), comparison, ThresholdId{i}}, {}};
  }
  throw std::runtime_error("no such threshold");
}

struct Shipped {
  std::string name;
  Protocol protocol;
};

std::vector<Shipped> shipped() {
  std::vector<Shipped> all;
  for (const char* set : {"reference", "harbour-lane"}) {
    for (const char* name : {"low", "ketones", "illness"}) {
      const std::string path = std::string(RUSHLIGHT_SOURCE_DIR "/protocols/") + set + "/" + name + ".xml";
      std::ifstream file(path, std::ios::binary);
      const std::string text{std::istreambuf_iterator<char>(file), {}};
      all.push_back({std::string(set) + " " + name, resolved_from_xml(text, path).value.value()});
    }
  }
  return all;
}

/// A visit to another protocol is a way to the step it comes back to, as in the checks of one file.
Protocol with_short_visits(Protocol protocol) {
  for (Step& step : protocol.steps) {
    for (Rule& rule : step.rules) rule.visits.clear();
  }
  return protocol;
}

/// Conditions on answers that some rule asks, and that stay true all night; for half of the nights.
Conditions some_that_stay(naive::Dice& dice, const Protocol& protocol) {
  Conditions all;
  for (const Step& step : protocol.steps) {
    for (const Rule& rule : step.rules) {
      for (const Condition& condition : rule.when) {
        const Subject subject = subject_of(condition);
        if (subject.kind == Subject::Kind::fact && !protocol.facts[subject.index].from_child) all.push_back(condition);
      }
    }
  }
  Conditions stay;
  for (int i = dice.between(0, 2); i > 0 && !all.empty(); --i) stay.push_back(dice.one_of(all));
  return stay;
}

/// Protocols as clinics write them, small: watch rules, waits, early rules, deeds that count, bands, fresh answers.
std::vector<Flow> drawn_flows(std::size_t count) {
  std::vector<Flow> flows;
  for (std::uint64_t seed = 1; flows.size() < count; ++seed) {
    naive::Dice dice(kSeed + seed);
    const Protocol protocol = naive::valid_protocol(dice, naive::beat_from(dice));
    if (!check(protocol).findings.empty()) continue;
    const Scenario scenario{some_that_stay(dice, protocol), static_cast<Urgency>(dice.between(1, 3))};
    const GlucoseUnit unit = dice.chance(50) ? GlucoseUnit::mg_per_dl : GlucoseUnit::mmol_per_l;
    flows.push_back(Flow{"drawn with " + std::to_string(kSeed + seed), protocol, scenario, unit});
  }
  return flows;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(spin_judge)

BOOST_AUTO_TEST_CASE(drawn_protocols_come_where_spin_comes_and_to_the_call_when_it_does) {
  BOOST_TEST_MESSAGE("seed " << kSeed);
  const std::vector<Flow> flows = drawn_flows(kSanitized ? 6 : 36);
  const Pan pan(promela_of(flows), "-O0 -DNOREDUCE");
  std::map<WorstTime::Verdict, int> verdicts;
  std::size_t events = 0;
  for (std::size_t i = 0; i < flows.size(); ++i) {
    judge_events(pan, i, flows[i]);
    const Promptness answers = i % 2 == 0 ? Promptness::late : Promptness::at_once;
    const NightVerdict proven = proven_verdict(flows[i], answers), seen = seen_verdict(pan, i, answers);
    BOOST_TEST(proven == seen, flows[i].name << ": proven " << proven << ", by SPIN " << seen << "\n"
                                             << naive::described(flows[i].protocol));
    ++verdicts[seen.verdict];
    events += proven_events(flows[i], Promptness::late)->size();
  }
  BOOST_TEST_MESSAGE(flows.size() << " drawn flows, " << events << " ways and steps; "
                                  << verdicts[WorstTime::Verdict::within] << " come in time, "
                                  << verdicts[WorstTime::Verdict::ends] << " end, "
                                  << verdicts[WorstTime::Verdict::goes_round] << " go round; made in "
                                  << pan.seconds_to_make() << " s");
  BOOST_TEST(verdicts[WorstTime::Verdict::within] > 0);
  BOOST_TEST(verdicts[WorstTime::Verdict::ends] > 0);
}

BOOST_AUTO_TEST_CASE(each_planted_fault_is_seen_by_spin_and_by_the_proofs) {
  constexpr int kOfEach = kSanitized ? 1 : 4;
  std::vector<PlantedFlow> planted;
  std::vector<Flow> flows;
  naive::Dice dice(kSeed);
  for (int kind = 0; kind < kPlantedKinds; ++kind) {
    for (int i = 0; i < kOfEach; ++i) {
      planted.push_back(planted_flow(dice, static_cast<Planted>(kind)));
      flows.push_back(planted.back().flow);
    }
  }
  const Pan pan(promela_of(flows), "-O0 -DNOREDUCE");
  for (std::size_t i = 0; i < flows.size(); ++i) {
    const Protocol& protocol = flows[i].protocol;
    judge_events(pan, i, flows[i]);
    const Promptness answers = i % 2 == 0 ? Promptness::late : Promptness::at_once;
    const NightVerdict proven = proven_verdict(flows[i], answers), seen = seen_verdict(pan, i, answers);
    const std::vector<Finding> findings = check(protocol).findings;
    BOOST_TEST_CONTEXT(flows[i].name << "\n" << naive::described(protocol)) {
      BOOST_TEST(proven == seen);
      BOOST_TEST(sees_round(pan, i) == planted[i].goes_round);
      BOOST_TEST(finds<LoopWithoutLimit>(findings) == planted[i].goes_round);
      BOOST_TEST(sees_round_without_wait(pan, i) == planted[i].round_without_wait);
      BOOST_TEST(finds<LoopWithoutWait>(findings) == planted[i].round_without_wait);
      const std::set<std::string> events = seen_events(pan, i, Promptness::late);
      for (std::uint16_t s = 0; s < protocol.steps.size(); ++s) {
        const bool lost = planted[i].unreachable == StepId{s};
        BOOST_TEST((events.count(entering(protocol, StepId{s})) == 0) == lost, "step " << protocol.steps[s].name);
      }
    }
  }
  BOOST_TEST_MESSAGE(flows.size() << " flows, " << kOfEach << " with each of " << kPlantedKinds - 1
                                  << " faults and with none; made in " << pan.seconds_to_make() << " s");
}

// Counters may stand anywhere for both judges, since all of them together are too much for either: what is called
// unreachable cannot be reached, and what is called reachable may need a count that no night has. A visit comes back at
// once. Of each protocol one file: for the second of each SPIN takes as long again, two minutes of a processor and two
// gigabytes, and they differ in few ways.
BOOST_AUTO_TEST_CASE(steps_and_ways_of_the_shipped_files_are_come_to_as_spin_says,
                     *boost::unit_test::enable_if<!kSanitized>()) {
  std::vector<Flow> flows;
  for (const Shipped& each : shipped()) {
    if (each.name != "reference low" && each.name != "harbour-lane ketones" && each.name != "reference illness")
      continue;
    flows.push_back(Flow{each.name, with_short_visits(each.protocol), Scenario{{}, Urgency::emergency}});
    Flow& flow = flows.back();
    flow.forgets_unread = true;
    for (std::uint16_t c = 0; c < flow.protocol.counters.size(); ++c) flow.loose.push_back(CounterId{c});
  }
  // SPIN is a process of its own for each file, so they need not wait for one another.
  std::vector<std::future<std::set<std::string>>> by_spin;
  for (const Flow& flow : flows) {
    by_spin.push_back(std::async(std::launch::async, [&flow] {
      return seen_events(Pan(promela_of({flow}), "-O0 -DSAFETY -DNOREDUCE"), 0, Promptness::late);
    }));
  }
  std::size_t events = 0, never = 0, steps = 0;
  for (std::size_t i = 0; i < flows.size(); ++i) {
    const Protocol& protocol = flows[i].protocol;
    const std::set<std::string> seen = by_spin[i].get();
    const auto proven = proven_events(flows[i], Promptness::late);
    BOOST_TEST_REQUIRE(proven.has_value());
    BOOST_TEST(seen == *proven, boost::test_tools::per_element());
    for (std::uint16_t s = 0; s < protocol.steps.size(); ++s)
      BOOST_TEST(seen.count(entering(protocol, StepId{s})) == 1, flows[i].name << ", " << protocol.steps[s].name);
    events += seen.size();
    never += ways_of(protocol).size() - seen.size();
    steps += protocol.steps.size();
  }
  BOOST_TEST_MESSAGE(steps << " steps, " << events << " of them and of their ways are come to, " << never << " never");
}

bool reads_counter(const Rule& rule) {
  return std::any_of(rule.when.begin(), rule.when.end(),
                     [](const Condition& condition) { return std::holds_alternative<CountedAtLeast>(condition.test); });
}

// Each group of steps that lead to one another by itself, from any of its steps and with any counts: whoever goes round
// for ever stays in one of them in the end, so that is wider than every night. The largest group of each file, 26 to 60
// steps that read 13 to 19 counters, is too much for SPIN with any counts and is left out.
BOOST_AUTO_TEST_CASE(small_loops_of_the_shipped_sets_end_and_go_on_without_their_limits_as_spin_says,
                     *boost::unit_test::enable_if<!kSanitized>()) {
  int loops = 0, limits = 0, endless = 0, refused_though_bounded = 0;
  for (const Shipped& each : shipped()) {
    const Protocol& protocol = each.protocol;
    std::vector<Flow> flows = loop_flows(protocol, each.name);
    const auto is_large = [](const Flow& flow) { return flow.within.size() > 3; };
    flows.erase(std::remove_if(flows.begin(), flows.end(), is_large), flows.end());
    if (flows.empty()) continue;
    const Pan pan(promela_of(flows), "-O0 -DNOREDUCE");
    BOOST_TEST(!finds<LoopWithoutLimit>(check(protocol).findings));
    for (std::size_t i = 0; i < flows.size(); ++i) {
      ++loops;
      BOOST_TEST(!sees_round(pan, i), flows[i].name);
      BOOST_TEST(!sees_round_without_wait(pan, i), flows[i].name);
      for (const StepId step : flows[i].within) {
        for (std::size_t rule = 0; rule < protocol[step].rules.size(); ++rule) {
          if (!reads_counter(protocol[step].rules[rule])) continue;
          Protocol without = protocol;
          std::vector<Rule>& rules = without.steps[step.index].rules;
          rules.erase(rules.begin() + static_cast<std::ptrdiff_t>(rule));
          const bool refused = finds<LoopWithoutLimit>(check(without).findings);
          const bool round = sees_round(pan, i, left_out(step, rule));
          BOOST_TEST((refused || !round),
                     flows[i].name << " without rule " << rule + 1 << " of " << protocol[step].name);
          ++limits;
          if (round) ++endless;
          if (refused && !round) ++refused_though_bounded;
        }
      }
    }
  }
  BOOST_TEST_MESSAGE(loops << " loops; without one of " << limits << " rules that read a counter " << endless
                           << " go on for ever, and " << refused_though_bounded << " more are refused");
  BOOST_TEST(endless > 0);
}

// With every counter and every minute, as the law of the shipped sets says it.
BOOST_AUTO_TEST_CASE(call_about_a_very_low_child_is_as_late_as_spin_says, *boost::unit_test::enable_if<!kSanitized>()) {
  std::vector<Flow> flows;
  for (const Shipped& each : shipped()) {
    if (each.protocol.name != "low") continue;
    const GlucoseUnit unit = flows.empty() ? GlucoseUnit::mg_per_dl : GlucoseUnit::mmol_per_l;
    const Condition very_low = condition_of(each.protocol, "glucose", Comparison::below, "very-low");
    flows.push_back(Flow{each.name, each.protocol, Scenario{{very_low}, Urgency::clinic_now}, unit});
  }
  const Pan pan(promela_of(flows), "-O0 -DNOREDUCE");
  for (std::size_t i = 0; i < flows.size(); ++i) {
    for (const Promptness answers : {Promptness::at_once, Promptness::late}) {
      const NightVerdict proven = proven_verdict(flows[i], answers), seen = seen_verdict(pan, i, answers);
      BOOST_TEST(proven == seen, flows[i].name << ": proven " << proven << ", by SPIN " << seen);
      BOOST_TEST((seen.verdict == WorstTime::Verdict::within));
      BOOST_TEST_MESSAGE(flows[i].name << ": " << seen);
    }
  }
}

BOOST_AUTO_TEST_SUITE_END()
