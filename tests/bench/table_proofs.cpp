#include <z3++.h>

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <string>

#include "tests/verify/grown_tables.hpp"
#include "tests/verify/smt_tables.hpp"
#include "verify/properties.hpp"

// table_proofs: how the proofs about one rule table grow with it, and how long Z3 takes for the same verdicts.
// Processor time of one run each; ours is the least of three. Both begin with the protocol in memory; Z3's time is that
// of its answers alone, without the reading of its text.

namespace rushlight::bench {
namespace {

using tests::Growth;
using Make = Protocol (*)(const Growth&);

double milliseconds() { return 1000 * static_cast<double>(std::clock()) / CLOCKS_PER_SEC; }

struct Verdict {
  bool gap = false;
  std::size_t dead = 0;
  double cut_ms = 0, gap_ms = 0, dead_ms = 0;
};

Verdict ours_once(const Protocol& protocol) {
  Verdict verdict;
  const double begin = milliseconds();
  Checking checking{protocol, {}, Graph{}};
  checking.tables.push_back(tables_of(protocol, protocol.steps.front()));
  const double cut = milliseconds();
  every_value_has_a_rule(checking);
  const double gap = milliseconds();
  verdict.gap = !checking.findings.empty();
  checking.findings.clear();
  no_rule_is_dead(checking);
  const double dead = milliseconds();
  verdict.dead = checking.findings.size();
  verdict.cut_ms = cut - begin;
  verdict.gap_ms = gap - cut;
  verdict.dead_ms = dead - gap;
  return verdict;
}

Verdict ours(const Protocol& protocol) {
  Verdict best = ours_once(protocol);
  for (int i = 0; i < 2; ++i) {
    const Verdict again = ours_once(protocol);
    best.cut_ms = std::min(best.cut_ms, again.cut_ms);
    best.gap_ms = std::min(best.gap_ms, again.gap_ms);
    best.dead_ms = std::min(best.dead_ms, again.dead_ms);
  }
  return best;
}

// Each rule is one formula over the facts; those before a rule stay asserted while the next ones are asked.
Verdict z3s(const Protocol& protocol) {
  const tests::SmtTable table = tests::smt_of(protocol, protocol.steps.front());
  Verdict verdict;
  z3::context context;
  z3::solver solver(context);
  solver.from_string((table.names + table.facts).c_str());
  std::string text = table.names;
  for (const std::string& rule : table.rules) text += "(assert " + rule + ")";
  const z3::expr_vector read = context.parse_string(text.c_str());
  std::vector<z3::expr> rules;
  for (int rule = 0; rule < static_cast<int>(read.size()); ++rule) rules.push_back(read[rule]);
  const double begin = milliseconds();
  solver.push();
  for (const z3::expr& rule : rules) solver.add(!rule);
  verdict.gap = solver.check() == z3::sat;
  solver.pop();
  const double gap = milliseconds();
  for (const z3::expr& rule : rules) {
    solver.push();
    solver.add(rule);
    if (solver.check() == z3::unsat) ++verdict.dead;
    solver.pop();
    solver.add(!rule);
  }
  verdict.gap_ms = gap - begin;
  verdict.dead_ms = milliseconds() - gap;
  return verdict;
}

void side_by_side(const char* what, Make make, const Growth& growth) {
  const Protocol protocol = make(growth);
  const Verdict mine = ours(protocol), theirs = z3s(protocol);
  if (mine.gap != theirs.gap || mine.dead != theirs.dead) {
    std::fprintf(stderr, "%s: here gap %d and %zu dead, by Z3 gap %d and %zu dead\n", what, mine.gap, mine.dead,
                 theirs.gap, theirs.dead);
    std::exit(1);
  }
  const double gap = mine.cut_ms + mine.gap_ms, dead = mine.cut_ms + mine.dead_ms;
  std::printf(
      "  %-44s %s, %3zu dead: gap %8.2f ms, Z3 %8.1f ms (%.0f times); dead rules %8.2f ms, Z3 %8.1f ms (%.0f times)\n",
      what, mine.gap ? "a gap" : "whole", mine.dead, gap, theirs.gap_ms, theirs.gap_ms / gap, dead, theirs.dead_ms,
      theirs.dead_ms / dead);
}

void growth(const char* what, Make make, std::size_t facts) {
  std::printf("  %-30s", (std::string(what) + ", " + std::to_string(facts) + " facts:").c_str());
  for (const std::size_t rules : {10U, 30U, 100U, 300U, 1000U, 3000U}) {
    const Verdict verdict = ours(make({rules, facts, 1}));
    std::printf(" %9.2f", verdict.cut_ms + verdict.gap_ms + verdict.dead_ms);
    std::fflush(stdout);
  }
  std::printf("\n");
}

}  // namespace
}  // namespace rushlight::bench

int main() {
  using namespace rushlight::bench;
  using namespace rushlight::tests;
  std::printf(
      "proofs about one table, with Z3 beside them (1000 rules; the cutting of the table counts both times):\n");
  side_by_side("nearly disjoint, 3 numbers, whole", nearly_disjoint_table, {1000, 3, 1});
  side_by_side("nearly disjoint, 3 numbers, with a hole", nearly_disjoint_table, {1000, 3, 2, true, true});
  side_by_side("wide and overlapping, 5 numbers", wide_table, {1000, 5, 1});
  side_by_side("as a clinic's, 5 facts", clinic_table, {1000, 5, 1});
  std::printf("growth: ms for gaps and dead rules together with 10, 30, 100, 300, 1000 and 3000 rules:\n");
  for (const std::size_t facts : {5U, 10U, 15U}) growth("nearly disjoint", nearly_disjoint_table, facts);
  for (const std::size_t facts : {5U, 10U, 15U}) growth("as a clinic's", clinic_table, facts);
  growth("wide and overlapping", wide_table, 5);
  return 0;
}
