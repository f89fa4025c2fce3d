#include <algorithm>
#include <boost/test/unit_test.hpp>

#include "episode/night.hpp"
#include "episode/rule_table.hpp"

// The rule table must choose as first_match does: in every step of three protocols, by day and by night, with every combination
// of everything that its rules can tell apart.

namespace rushlight::test {
namespace {

constexpr Duration kSaidBefore{60};  // every fact was said this long ago

/// A value of the fact's kind that many steps away from a limit: -1 just below it, 0 at it, 1 just above it.
struct Near {
  int steps;
  Decimal moved(Decimal value, std::int64_t micros) const { return value + Decimal::of_micros(steps * micros); }

  std::vector<Value> operator()(const GlucoseLimit& limit) const {
    return {Glucose::reading(moved(limit.mg_per_dl, 1'000'000), GlucoseUnit::mg_per_dl),
            Glucose::reading(moved(limit.mmol_per_l, 100'000), GlucoseUnit::mmol_per_l)};
  }
  std::vector<Value> operator()(BloodKetones limit) const {
    const BloodKetones value{moved(limit.in(kMillimolePerLitre), 100'000), kMillimolePerLitre};
    return {KetoneReading::reading(value)};
  }
  std::vector<Value> operator()(int limit) const { return {Count{limit + steps}}; }
  std::vector<Value> operator()(Duration limit) const { return {Ago{limit - kSaidBefore + std::chrono::seconds{steps}}}; }
  template <class Other>
  std::vector<Value> operator()(const Other&) const { return {}; }
};

/// Everything the step's rules can tell apart in a fact: nothing said, "can't tell", every option, both ends of the meter, and
/// the near side, the far side and the middle of every border.
std::vector<std::optional<Value>> values_of(const Protocol& protocol, const Step& step, FactId fact) {
  std::vector<std::optional<Value>> values = {std::nullopt, Value{CantTell{}}};
  for (std::size_t option = 0; option < protocol[fact].options.size(); ++option) {
    values.push_back(Chosen{static_cast<std::uint16_t>(option)});
  }
  for (const Rule& rule : step.rules) {
    for (const Condition& condition : rule.when) {
      const auto* compares = std::get_if<Compares>(&condition.test);
      if (compares == nullptr || !(compares->fact == fact)) continue;
      for (const Band& band : protocol[compares->limit].bands) {
        for (const int steps : {-1, 0, 1}) {
          for (const Value& value : std::visit(Near{steps}, band.value)) {
            if (std::find(values.begin(), values.end(), std::optional<Value>(value)) == values.end()) values.push_back(value);
          }
        }
      }
    }
  }
  const FactKind kind = protocol[fact].kind;
  if (kind == FactKind::glucose) {
    values.insert(values.end(), {Glucose::lo(GlucoseUnit::mg_per_dl), Glucose::hi(GlucoseUnit::mmol_per_l)});
  }
  if (kind == FactKind::ketones) values.push_back(KetoneReading::hi());
  if (kind == FactKind::count) values.push_back(Count{0});
  if (kind == FactKind::time_since) values.push_back(NotLately{});
  return values;
}

class Comparing {
 public:
  Comparing(const Protocol& protocol, const Child& child, Moment now)
      : protocol_(protocol), child_(child), now_(now.utc), episode_(begun(protocol, child, now)) {}

  /// Every combination of values of the facts that the step's rules read or the step asks, and of one counter.
  void step(const Step& step) {
    const Context context = scene_at(protocol_, child_, episode_, now_).context;
    const std::optional<RuleTable> table = RuleTable::of(protocol_, step, context);
    BOOST_REQUIRE(table.has_value());
    std::vector<FactId> facts;
    const auto add = [&](FactId fact) {
      if (fact.index >= kChildFacts && std::find(facts.begin(), facts.end(), fact) == facts.end()) facts.push_back(fact);
    };
    for (const Ask& ask : step.asks) add(ask.fact);
    for (const Rule& rule : step.rules) {
      for (const Condition& condition : rule.when) {
        if (const auto* compares = std::get_if<Compares>(&condition.test)) add(compares->fact);
        if (const auto* is = std::get_if<Is>(&condition.test)) add(is->fact);
      }
    }
    for (int& counted : episode_.counted) {
      for (const int count : {0, 1, 2, 3, 9}) {
        counted = count;
        all_values(step, *table, facts, 0);
      }
      counted = 0;
    }
    all_values(step, *table, facts, 0);
  }

  long compared() const { return compared_; }
  long chosen() const { return chosen_; }

 private:
  void all_values(const Step& step, const RuleTable& table, const std::vector<FactId>& facts, std::size_t next) {
    if (next == facts.size()) return compare(step, table);
    std::optional<Known>& known = episode_.facts[facts[next].index];
    for (const std::optional<Value>& value : values_of(protocol_, step, facts[next])) {
      known = value ? std::optional<Known>(Known{*value, now_ - kSaidBefore, 1, false}) : std::nullopt;
      all_values(step, table, facts, next + 1);
    }
    known.reset();
  }

  void compare(const Step& step, const RuleTable& table) {
    const Scene scene = scene_at(protocol_, child_, episode_, now_);
    const std::optional<std::uint16_t> slow = first_match(scene, step);
    ++compared_;
    if (slow) ++chosen_;
    if (table.first_match(scene) == slow) return;
    BOOST_FAIL("step " << step.name << " after " << compared_ << " comparisons: first_match takes "
                       << (slow ? step.rules[*slow].name : "none"));
  }

  const Protocol& protocol_;
  Child child_;
  Instant now_;
  Episode episode_;
  long compared_ = 0, chosen_ = 0;
};

}  // namespace

BOOST_AUTO_TEST_SUITE(rule_table)

BOOST_AUTO_TEST_CASE(rule_table_takes_the_rule_that_first_match_takes_whatever_the_facts) {
  for (const char* file : {"/protocols/reference/low.xml", "/protocols/harbour-lane/low.xml", "/tests/episode/small_low.xml"}) {
    const CheckedProtocol checked_low = checked(std::string(RUSHLIGHT_SOURCE_DIR) + file);
    for (const char* clock : {"2026-03-01T02:10:00-05:00", "2026-03-01T14:10:00-05:00"}) {
      Comparing comparing(checked_low.protocol(), mara(), *moment_from_text(clock));
      for (const Step& step : checked_low.protocol().steps) comparing.step(step);
      BOOST_TEST(comparing.chosen() > 100);
      BOOST_TEST_MESSAGE(file << ": " << comparing.compared() << " comparisons, " << comparing.chosen() << " with a rule");
    }
  }
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace rushlight::test
