#include <boost/test/unit_test.hpp>
#include <set>

#include "tests/sanitized.hpp"
#include "tests/verify/naive_table.hpp"
#include "tests/verify/random_tables.hpp"
#include "verify/check.hpp"

using namespace rushlight;
using namespace rushlight::tests;

namespace {

constexpr unsigned kTablesSeed = 20260301;
constexpr int kTables = kSanitized ? 500 : 2500;

struct Said {
  bool values = false;
  std::set<std::string> unknown;
  std::set<int> dead;
};

Said said_of(const std::vector<Finding>& findings) {
  Said said;
  for (const Finding& finding : findings) {
    if (finding.kind.is<ValuesNotCovered>()) said.values = true;
    if (const auto* kind = finding.kind.as<UnknownNotCovered>()) said.unknown.insert(kind->fact);
    if (const auto* kind = finding.kind.as<RuleNeverMatches>()) said.dead.insert(kind->rule);
  }
  return said;
}

// Where the two differ; empty when they agree.
std::string difference(const Protocol& protocol, const Verdict& naive) {
  const Said said = said_of(check(protocol).findings);
  std::string text;
  if (naive.gap != (said.values || !said.unknown.empty())) text += "a gap; ";
  if (naive.gap_when_all_is_known && !said.values) text += "a gap when all is known; ";
  if (said.values && !naive.gap_when_all_is_known && !said.unknown.empty()) text += "values told beside unknowns; ";
  for (const std::string& fact : said.unknown) {
    if (naive.gap_when_only_this_is_unknown.count(fact) == 0) text += "unknown " + fact + "; ";
  }
  for (const std::string& fact : naive.gap_when_only_this_is_unknown) {
    if (!naive.gap_when_all_is_known && said.unknown.count(fact) == 0) text += "no word of unknown " + fact + "; ";
  }
  for (std::size_t i = 0; i < naive.rule_matches.size(); ++i) {
    if (naive.rule_matches[i] == (said.dead.count(static_cast<int>(i) + 1) != 0))
      text += "rule " + std::to_string(i + 1) + "; ";
  }
  return text;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(judge)

BOOST_AUTO_TEST_CASE(coverage_and_dead_rules_agree_with_trying_every_combination) {
  BOOST_TEST_MESSAGE("seed " << kTablesSeed);
  RandomTables tables(kTablesSeed);
  int gaps = 0, whole = 0, dead = 0;
  std::size_t combinations = 0;
  for (int i = 0; i < kTables; ++i) {
    const Protocol protocol = tables.next();
    const Verdict naive = naive_verdict(protocol);
    BOOST_REQUIRE_MESSAGE(difference(protocol, naive).empty(),
                          "seed " << kTablesSeed << ", table " << i << ": " << difference(protocol, naive));
    (naive.gap ? gaps : whole) += 1;
    for (const bool matches : naive.rule_matches) dead += matches ? 0 : 1;
    combinations += naive.combinations;
  }
  BOOST_TEST_MESSAGE(kTables << " tables: " << gaps << " with a gap, " << whole << " whole, " << dead << " dead rules, "
                             << combinations << " combinations");
  // A judge that saw only one kind of table would prove nothing.
  BOOST_TEST(gaps > kTables / 8);
  BOOST_TEST(whole > kTables / 8);
  BOOST_TEST(dead > kTables / 8);
}

BOOST_AUTO_TEST_SUITE_END()
