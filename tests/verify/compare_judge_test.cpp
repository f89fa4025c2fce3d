#include <z3++.h>

#include <boost/test/unit_test.hpp>

#include "tests/sanitized.hpp"
#include "tests/verify/random_tables.hpp"
#include "tests/verify/smt_tables.hpp"
#include "verify/compare.hpp"

// Z3 judges the comparison of two versions of one table: told is exactly where the first rule that holds leads
// elsewhere.

using namespace rushlight;
using namespace rushlight::tests;

namespace {

constexpr std::size_t kEnds = 4;

class Versions {
 public:
  explicit Versions(unsigned seed) : tables_(seed), random_(seed) {}

  /// A table of which every rule leads to one of four ends; its one thing to do makes it a place where one rests.
  Protocol first() {
    Protocol table = tables_.next();
    table.opening.clear();
    // Whatever names a threshold that the table no longer has.
    table.foods.clear();
    table.weight_fresh.reset();
    table.parts.front().daily_dose_fresh.reset();
    for (Threshold& threshold : table.thresholds) threshold.label = table.steps.front().headline;
    Action note = table.actions.front();
    note.kind = ActionKind::note;
    note.step = StepId{0};
    note.text = table.steps.front().headline;
    note.when.clear();
    note.dose.reset();
    note.counts.reset();
    note.on.fill(OutcomeRule{});
    table.actions = {note};
    Step asks = table.steps.front();
    asks.name = "look";
    asks.actions = {ActionId{0}};
    asks.wait.reset();
    table.steps = {asks};
    for (std::size_t end = 0; end < kEnds; ++end) {
      Step to = asks;
      to.name = "end-" + std::to_string(end);
      to.urgency = static_cast<Urgency>(end);
      to.asks.clear();
      to.actions.clear();
      to.rules.clear();
      to.ends = true;
      for (std::size_t watch = 0; watch < table.watch.size(); ++watch)
        to.handles.push_back(WatchId{static_cast<std::uint16_t>(watch)});
      table.steps.push_back(to);
    }
    for (Rule& rule : table.steps.front().rules) rule.go = any_end();
    for (Watch& watch : table.watch) watch.go = any_end();
    return table;
  }

  Protocol next_of(Protocol table) {
    for (std::uint64_t edits = 1 + below(2); edits > 0; --edits) edit(table);
    return table;
  }

  std::uint64_t below(std::uint64_t end) { return random_() % end; }

 private:
  StepId any_end() { return StepId{static_cast<std::uint16_t>(1 + below(kEnds))}; }

  void edit(Protocol& table) {
    std::vector<Rule>& rules = table.steps.front().rules;
    Rule& rule = rules[below(rules.size())];
    switch (below(5)) {
      case 0:
        return move(table.thresholds[below(2)]);
      case 1:
        rule.go = any_end();
        return;
      case 2:
        if (!rule.when.empty()) turn(rule.when[below(rule.when.size())]);
        return;
      case 3:
        std::swap(rule, rules[below(rules.size())]);
        return;
      default:
        if (rules.size() > 1) rules.erase(rules.begin() + static_cast<std::ptrdiff_t>(below(rules.size())));
    }
  }
  // Up or down by one in mg/dL, or in mmol/L alone: what a clinic may change in one unit and forget in the other.
  void move(Threshold& threshold) {
    auto& limit = std::get<GlucoseLimit>(threshold.bands[below(threshold.bands.size())].value);
    if (below(3) != 0) limit.mg_per_dl = limit.mg_per_dl + Decimal::whole(static_cast<int>(below(5)) - 2);
    if (below(3) != 0)
      limit.mmol_per_l = limit.mmol_per_l + Decimal::of_micros(100'000 * (static_cast<std::int64_t>(below(5)) - 2));
  }
  void turn(Condition& condition) {
    if (auto* compares = std::get_if<Compares>(&condition.test))
      compares->comparison = static_cast<Comparison>(below(4));
    if (auto* is = std::get_if<Is>(&condition.test)) is->options ^= below(2) == 0 ? kUnknownBit : 1;
  }

  RandomTables tables_;
  std::mt19937 random_;
};

/// Where the step leads, rule by rule, with when; the last is when no rule takes it.
std::vector<std::pair<std::string, std::string>> ways_of(const Protocol& protocol) {
  const SmtTable table = smt_of(protocol, protocol.steps.front());
  std::vector<std::pair<std::string, std::string>> ways;
  std::string before = "(or false";
  const auto add = [&](const std::string& when, const std::string& to) {
    ways.emplace_back("(and " + when + " (not " + before + ")))", to);
    before += " " + when;
  };
  if (!protocol.watch.empty()) add(table.watched, protocol[protocol.watch.front().go].name);
  const std::vector<Rule>& rules = protocol.steps.front().rules;
  for (std::size_t rule = 0; rule < rules.size(); ++rule) add(table.rules[rule], protocol[rules[rule].go].name);
  add("true", "nowhere");
  return ways;
}

std::string lead_apart(const Protocol& was, const Protocol& now) {
  std::string apart = "(or false";
  for (const auto& [one, there] : ways_of(was)) {
    for (const auto& [other, elsewhere] : ways_of(now)) {
      if (there != elsewhere) apart += " (and " + one + " " + other + ")";
    }
  }
  return apart + ")";
}

struct Told {
  std::string region = "(or false";
  bool too_many = false;
};

/// What the comparison says of the ways on from the table.
Told told_apart(const Protocol& was, const Differences& all) {
  Told told;
  for (const Difference& each : all.changes) {
    const Difference::Place here{"after", "look"};
    if (each.kind != Difference::Kind::leads || std::find(each.at.begin(), each.at.end(), here) == each.at.end())
      continue;
    told.too_many = told.too_many || each.too_many;
    const bool one_list = each.regions_mmol.empty();
    for (const Cases& cases : each.regions) {
      const std::string region = smt_from_cases(was, cases);
      told.region += one_list ? " " + region : " (and mg " + region + ")";
    }
    for (const Cases& cases : each.regions_mmol) told.region += " (and (not mg) " + smt_from_cases(was, cases) + ")";
  }
  told.region += ")";
  return told;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(compare_judge)

BOOST_AUTO_TEST_CASE(two_versions_of_a_table_lead_apart_exactly_where_z3_says) {
  constexpr unsigned kSeed = 20261129;
  constexpr int kPairs = kSanitized ? 120 : 600;
  BOOST_TEST_MESSAGE("seed " << kSeed);
  Versions versions(kSeed);
  int apart = 0, alike = 0;
  for (int pair = 0; pair < kPairs; ++pair) {
    const Protocol was = versions.first(), now = versions.next_of(was);
    const Differences all = compare(was, now);
    BOOST_TEST_REQUIRE(!all.gave_up);
    const Told told = told_apart(was, all);
    BOOST_TEST_REQUIRE(!told.too_many);
    const SmtTable table = smt_of(was, was.steps.front());
    z3::context context;
    z3::solver solver(context);
    solver.from_string((table.names + table.facts).c_str());
    const auto add = [&](const std::string& truth) {
      solver.add(context.parse_string((table.names + "(assert " + truth + ")").c_str())[0]);
    };
    const std::string differ = lead_apart(was, now);
    BOOST_TEST_CONTEXT("pair " << pair << "\ntold " << told.region << "\napart " << differ) {
      solver.push();
      add("(xor " + told.region + " " + differ + ")");
      BOOST_TEST(solver.check() == z3::unsat);
      solver.pop();
    }
    solver.push();
    add(differ);
    ++(solver.check() == z3::sat ? apart : alike);
    solver.pop();
  }
  BOOST_TEST_MESSAGE(apart << " pairs part somewhere, " << alike << " nowhere");
  BOOST_TEST(apart > kPairs / 3);
  BOOST_TEST(alike > kPairs / 20);
}

BOOST_AUTO_TEST_SUITE_END()
