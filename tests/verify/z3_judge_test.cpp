#include <z3++.h>

#include <boost/test/unit_test.hpp>
#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>

#include "read/resolved_from_xml.hpp"
#include "tests/protocol/small_protocol.hpp"
#include "tests/sanitized.hpp"
#include "tests/verify/grown_tables.hpp"
#include "tests/verify/random_tables.hpp"
#include "tests/verify/smt_tables.hpp"
#include "verify/check.hpp"

// Z3 judges the rule tables: it reads each as SMT-LIB text and knows nothing of how the checks cut them.

using namespace rushlight;
using namespace rushlight::tests;

namespace {

/// What was found of one table.
struct Judged {
  std::vector<std::string> gaps;  // an example of each
  std::set<std::size_t> dead;     // rules or rows, from 1
};

constexpr std::string_view kNoRuleTakes = "no rule takes ";

Judged judged_by_check(const std::vector<Finding>& findings, const std::string& table) {
  Judged said;
  for (const Finding& finding : findings) {
    if (const auto* gap = finding.kind.as<ValuesNotCovered>(); gap != nullptr && gap->step == table)
      said.gaps.push_back(gap->example);
    if (const auto* gap = finding.kind.as<UnknownNotCovered>(); gap != nullptr && gap->step == table)
      said.gaps.push_back(finding.because.value().text.substr(kNoRuleTakes.size()));
    if (const auto* dead = finding.kind.as<RuleNeverMatches>(); dead != nullptr && dead->step == table)
      said.dead.insert(static_cast<std::size_t>(dead->rule));
    if (const auto* dead = finding.kind.as<DoseRowNeverMatches>(); dead != nullptr && dead->dose == table)
      said.dead.insert(static_cast<std::size_t>(dead->row));
  }
  return said;
}

bool has_dose_gap(const std::vector<Finding>& findings, const std::string& dose) {
  return std::any_of(findings.begin(), findings.end(), [&](const Finding& finding) {
    const auto* gap = finding.kind.as<DoseNotCovered>();
    return gap != nullptr && gap->dose == dose;
  });
}

class Z3Judge {
 public:
  explicit Z3Judge(const SmtTable& table) : names_(table.names), solver_(context_), watched_(context_) {
    solver_.from_string((names_ + table.facts).c_str());
    watched_ = read(table.watched);
    for (const std::string& rule : table.rules) rules_.push_back(read(rule));
  }

  bool has_gap() { return answer({no_taker()}) == z3::sat; }

  std::set<std::size_t> dead() {
    std::set<std::size_t> dead;
    solver_.push();
    for (std::size_t rule = 0; rule < rules_.size(); ++rule) {
      if (answer({rules_[rule]}) == z3::unsat) dead.insert(rule + 1);
      solver_.add(!rules_[rule]);
    }
    solver_.pop();
    return dead;
  }

  /// Nothing takes the example, whatever the answers are that it does not name; and somebody can give its answers.
  bool is_gap(const std::string& example) {
    const z3::expr given = read(example);
    // An example that names no glucose may be one in one unit.
    for (const bool mg : {true, false}) {
      const z3::expr unit = mg ? context_.bool_const("mg") : !context_.bool_const("mg");
      if (answer({given, unit}) == z3::sat && answer({given, unit, !no_taker()}) == z3::unsat) return true;
    }
    return false;
  }

 private:
  z3::expr read(const std::string& truth) {
    return context_.parse_string((names_ + "(assert " + truth + ")").c_str())[0];
  }
  z3::expr no_taker() {
    z3::expr none = !watched_;
    for (const z3::expr& rule : rules_) none = none && !rule;
    return none;
  }
  z3::check_result answer(const std::vector<z3::expr>& what) {
    solver_.push();
    for (const z3::expr& each : what) solver_.add(each);
    const z3::check_result result = solver_.check();
    solver_.pop();
    BOOST_TEST_REQUIRE(result != z3::unknown);
    return result;
  }

  z3::context context_;
  std::string names_;
  z3::solver solver_;
  z3::expr watched_;
  std::vector<z3::expr> rules_;
};

/// Holds what the check said of the first step against Z3; how many gaps and dead rules there were.
struct Tally {
  int gaps = 0, whole = 0, dead = 0, examples = 0;
};

void judge_step(const Protocol& protocol, const Step& step, const std::vector<Finding>& findings, Tally& count,
                const std::string& which) {
  Z3Judge judge(smt_of(protocol, step));
  const Judged said = judged_by_check(findings, step.name);
  BOOST_TEST_CONTEXT(which << ", step " << step.name) {
    BOOST_TEST(judge.has_gap() == !said.gaps.empty());
    // During the wait an early rule is looked at before those above it: below one that takes everything it is not dead.
    std::set<std::size_t> dead = judge.dead();
    std::erase_if(dead, [&](std::size_t rule) { return step.wait && step.rules[rule - 1].early; });
    BOOST_TEST(dead == said.dead, boost::test_tools::per_element());
    for (const std::string& gap : said.gaps) {
      const auto example = smt_from_example(protocol, gap);
      BOOST_TEST_REQUIRE(example.has_value(), gap);
      BOOST_TEST(judge.is_gap(*example), "something takes " << gap);
      ++count.examples;
    }
  }
  (said.gaps.empty() ? count.whole : count.gaps) += 1;
  count.dead += static_cast<int>(said.dead.size());
}

void say(const char* what, const Tally& count) {
  BOOST_TEST_MESSAGE(what << ": " << count.gaps << " tables with a gap, " << count.whole << " whole, " << count.dead
                          << " dead rules, " << count.examples << " counterexamples");
}

}  // namespace

BOOST_AUTO_TEST_SUITE(z3_judge)

BOOST_AUTO_TEST_CASE(small_tables_over_everything_a_condition_reads_get_the_verdicts_of_z3) {
  constexpr unsigned kSeed = 20260302;
  constexpr int kTables = kSanitized ? 40 : 500;
  BOOST_TEST_MESSAGE("seed " << kSeed);
  RandomTables tables(kSeed);
  Tally count;
  for (int i = 0; i < kTables; ++i) {
    const Protocol protocol = tables.next();
    judge_step(protocol, protocol.steps.front(), check(protocol).findings, count, "table " + std::to_string(i));
  }
  say("small tables", count);
  BOOST_TEST(count.gaps > kTables / 8);
  BOOST_TEST(count.whole > kTables / 8);
  BOOST_TEST(count.dead > kTables / 8);
}

BOOST_AUTO_TEST_CASE(large_tables_with_and_without_a_hole_and_a_repeated_rule_get_the_verdicts_of_z3) {
  Tally count;
  const unsigned tables = kSanitized ? 1 : 8;
  for (unsigned seed = 1; seed <= tables; ++seed) {
    for (const bool planted : {false, true}) {
      for (const std::size_t rules : {10U, 40U, 120U}) {
        const std::string which =
            std::to_string(rules) + " rules, seed " + std::to_string(seed) + (planted ? ", planted" : "");
        const Growth three{rules, 3, seed, planted, planted}, five{rules, 5, seed, planted, planted};
        for (const Protocol& protocol : {nearly_disjoint_table(three), wide_table(five), clinic_table(five)})
          judge_step(protocol, protocol.steps.front(), check(protocol).findings, count, which);
      }
    }
  }
  say("large tables", count);
  BOOST_TEST(count.gaps >= static_cast<int>(tables) * 3);
  BOOST_TEST(count.whole >= static_cast<int>(tables) * 3);
  BOOST_TEST(count.dead >= static_cast<int>(tables) * 9);
}

BOOST_AUTO_TEST_CASE(every_table_of_the_shipped_sets_gets_the_verdicts_of_z3) {
  int protocols = 0, rows = 0;
  Tally count;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(RUSHLIGHT_SOURCE_DIR "/protocols")) {
    if (entry.path().extension() != ".xml") continue;
    std::ifstream file(entry.path());
    std::stringstream text;
    text << file.rdbuf();
    Read<Protocol> read = resolved_from_xml(text.str(), entry.path().filename().string());
    if (!read.value) continue;  // a set's other files
    ++protocols;
    const Protocol& protocol = *read.value;
    const std::vector<Finding> findings = check(protocol).findings;
    for (const Step& step : protocol.steps) {
      if (!step.ends && !step.rules.empty()) judge_step(protocol, step, findings, count, entry.path().string());
    }
    for (const Dose& dose : protocol.doses) {
      BOOST_TEST_CONTEXT(entry.path() << ", dose " << dose.name) {
        Z3Judge judge(smt_of(protocol, dose));
        BOOST_TEST(judge.has_gap() == has_dose_gap(findings, dose.name));
        BOOST_TEST(judge.dead() == judged_by_check(findings, dose.name).dead, boost::test_tools::per_element());
      }
      rows += static_cast<int>(dose.rows.size());
    }
  }
  say("shipped tables", count);
  BOOST_TEST_MESSAGE(protocols << " protocols, " << rows << " rows of doses");
  BOOST_TEST(protocols >= 3);
  BOOST_TEST(count.whole > 50);
  BOOST_TEST(rows > 10);
}

BOOST_AUTO_TEST_SUITE_END()
