#include "verify/worst_time.hpp"

#include <boost/test/unit_test.hpp>
#include <fstream>
#include <iterator>

#include "tests/verify/small_checks.hpp"
#include "verify/replay.hpp"

using namespace rushlight;
using namespace rushlight::tests;
using namespace std::chrono_literals;

namespace {

constexpr GlucoseUnit kMgPerDl = GlucoseUnit::mg_per_dl;

Condition compares(const Protocol& protocol, const char* fact, Comparison comparison, std::string_view limit) {
  for (std::uint16_t i = 0; i < protocol.thresholds.size(); ++i) {
    if (protocol.thresholds[i].name == limit)
      return Condition{Compares{protocol.fact_named(fact).value(), comparison, ThresholdId{i}}, {}};
  }
  throw std::runtime_error("no such threshold");
}

Condition is(const Protocol& protocol, const char* fact, std::string_view option) {
  const FactId id = protocol.fact_named(fact).value();
  for (std::size_t i = 0; i < protocol[id].options.size(); ++i) {
    if (protocol[id].options[i].name == option) return Condition{Is{id, std::uint64_t{1} << i}, {}};
  }
  throw std::runtime_error("no such option");
}

Scenario stays_low(const Protocol& protocol) {
  return Scenario{{compares(protocol, "glucose", Comparison::below, "low")}, Urgency::clinic_now};
}

std::string way(const Protocol& protocol, const WorstTime& worst) {
  std::string text;
  for (const NightStep& step : worst.night)
    text += (text.empty() ? "" : " ") + protocol[step.step].name + "@" +
            std::to_string(std::chrono::duration_cast<std::chrono::minutes>(step.at).count());
  return text;
}

const std::string kLimitRule =
    R"(<rule go="call"><if fact="glucose" below="low"/><if counter="treatments" at-least="most-treatments"/></rule>)";

Protocol shipped(const std::string& set, const std::string& name) {
  const std::string path = std::string(RUSHLIGHT_SOURCE_DIR) + "/protocols/" + set + "/" + name + ".xml";
  std::ifstream file(path, std::ios::binary);
  const std::string text{std::istreambuf_iterator<char>(file), {}};
  Read<Protocol> read = resolved_from_xml(text, path);
  return std::move(read.value.value());
}

}  // namespace

BOOST_AUTO_TEST_SUITE(worst_times)

BOOST_AUTO_TEST_CASE(a_child_who_stays_low_is_called_about_after_two_waits_when_everything_is_answered_at_once) {
  const Protocol protocol = resolved();
  const WorstTime worst = worst_time(protocol, stays_low(protocol), Promptness::at_once, kMgPerDl);
  BOOST_TEST((worst.verdict == WorstTime::Verdict::within));
  BOOST_TEST((worst.most == 30min));
  BOOST_TEST(way(protocol, worst) == "measure@0 treat@0 treat@15 call@30");
}

// Each of the two waits of 15 min begins 10 min late, and 10 min after it ended the answer comes.
BOOST_AUTO_TEST_CASE(late_answers_add_the_start_and_the_overdue_allowance_of_each_wait) {
  const Protocol protocol = resolved();
  const WorstTime worst = worst_time(protocol, stays_low(protocol), Promptness::late, kMgPerDl);
  BOOST_TEST((worst.verdict == WorstTime::Verdict::within));
  BOOST_TEST((worst.most == 70min));
}

BOOST_AUTO_TEST_CASE(the_engine_itself_is_as_late_as_was_found) {
  const Protocol protocol = resolved();
  for (const Promptness answers : {Promptness::at_once, Promptness::late}) {
    const WorstTime worst = worst_time(protocol, stays_low(protocol), answers, kMgPerDl);
    const Replay replay = replayed(protocol, worst.night, answers, kMgPerDl);
    BOOST_TEST(replay.came);
    BOOST_TEST((replay.after <= worst.most && worst.most - replay.after <= 3s));
  }
}

BOOST_AUTO_TEST_CASE(a_longer_wait_makes_the_call_later_by_as_much_each_time) {
  const Protocol protocol =
      resolved(with(R"(<time id="recheck" value="15 min")", R"(<time id="recheck" value="20 min")"));
  BOOST_TEST((worst_time(protocol, stays_low(protocol), Promptness::at_once, kMgPerDl).most == 40min));
}

BOOST_AUTO_TEST_CASE(a_child_who_was_told_not_to_wake_is_an_emergency_at_once) {
  const Protocol protocol = resolved();
  const Scenario scenario{{is(protocol, "awake", "no")}, Urgency::emergency};
  const WorstTime worst = worst_time(protocol, scenario, Promptness::late, kMgPerDl);
  BOOST_TEST((worst.verdict == WorstTime::Verdict::within));
  BOOST_TEST((worst.most == 0min));
  BOOST_TEST(protocol[worst.step].name == "emergency");
}

BOOST_AUTO_TEST_CASE(without_a_limit_the_night_goes_round) {
  const std::string text = changed(small_protocol(), kLimitRule, "");
  const Protocol protocol = resolved(text);
  const WorstTime worst = worst_time(protocol, stays_low(protocol), Promptness::at_once, kMgPerDl);
  BOOST_TEST((worst.verdict == WorstTime::Verdict::goes_round));
  BOOST_TEST(way(protocol, worst) == "measure@0 treat@0 treat@15");
}

BOOST_AUTO_TEST_CASE(a_counter_that_is_reset_on_the_way_round_is_no_limit) {
  const Protocol protocol =
      resolved(with(R"(<rule go="treat"><if fact="glucose" below="low"/></rule>
      <rule go="well" resets)",
                    R"(<rule go="treat" resets="treatments"><if fact="glucose" below="low"/></rule>
      <rule go="well" resets)"));
  const WorstTime worst = worst_time(protocol, stays_low(protocol), Promptness::at_once, kMgPerDl);
  BOOST_TEST((worst.verdict == WorstTime::Verdict::goes_round));
}

BOOST_AUTO_TEST_CASE(a_night_that_ends_calmly_is_told_with_its_end) {
  const Protocol protocol = resolved();
  const Scenario scenario{{compares(protocol, "glucose", Comparison::at_least, "low")}, Urgency::clinic_now};
  const WorstTime worst = worst_time(protocol, scenario, Promptness::at_once, kMgPerDl);
  BOOST_TEST((worst.verdict == WorstTime::Verdict::ends));
  BOOST_TEST(way(protocol, worst) == "measure@0 well@0");
}

BOOST_AUTO_TEST_CASE(a_night_that_another_protocol_takes_over_is_told_as_such) {
  const Protocol protocol = resolved(with(R"(<rule go="treat"><if fact="glucose" is="unknown"/></rule>)",
                                          R"(<rule hand-over="illness"><if fact="glucose" is="unknown"/></rule>)"));
  const Scenario scenario{{Condition{Is{protocol.fact_named("glucose").value(), kUnknownBit}, {}}},
                          Urgency::clinic_now};
  const WorstTime worst = worst_time(protocol, scenario, Promptness::at_once, kMgPerDl);
  BOOST_TEST((worst.verdict == WorstTime::Verdict::leaves));
  BOOST_TEST(protocol[worst.step].name == "measure");
}

BOOST_AUTO_TEST_CASE(each_child_has_the_times_of_its_own_band) {
  const Protocol protocol = resolved(with(
      R"(<time id="recheck" value="15 min" least="10 min" most="20 min" source="practice">)",
      R"(<time id="recheck" least="10 min" most="20 min" source="practice"><band age-up-to="6 a" value="20 min"/><band age-from="6 a" value="10 min"/>)"));
  BOOST_TEST((worst_time(protocol, stays_low(protocol), Promptness::at_once, kMgPerDl).most == 40min));
  const Protocol with_age = resolved(changed(
      with(
          R"(<time id="recheck" value="15 min" least="10 min" most="20 min" source="practice">)",
          R"(<time id="recheck" least="10 min" most="20 min" source="practice"><band age-up-to="6 a" value="20 min"/><band age-from="6 a" value="10 min"/>)"),
      R"(<age id="honey-age" value="12 mo" least="12 mo" most="24 mo")",
      R"(<age id="six" value="6 a" least="5 a" most="7 a" source="practice"><en>Six</en></age>
    <age id="honey-age" value="12 mo" least="12 mo" most="24 mo")"));
  Scenario six = stays_low(with_age);
  six.stays.push_back(compares(with_age, "age", Comparison::at_least, "six"));
  BOOST_TEST((worst_time(with_age, six, Promptness::at_once, kMgPerDl).most == 20min));
}

// `again` takes what `measure` has just heard: who is not shaky never comes there, and its rule for that is no way.
BOOST_AUTO_TEST_CASE(what_was_told_a_moment_ago_is_remembered) {
  const std::string asks_both = measuring(
      R"(<rule go="again"><if fact="symptoms" is="yes"/></rule><rule go="call"><if fact="symptoms" is="no unknown"/></rule>)",
      R"(<ask fact="glucose"/><ask fact="symptoms"/>)");
  const std::string again = R"(<step id="again" urgency="home" source="practice"><headline><en>Again.</en></headline>
      <ask fact="symptoms" fresh="recheck"/>
      <rule go="treat"><if fact="symptoms" is="no unknown"/></rule>
      <rule go="call"><if fact="symptoms" is="yes"/></rule></step>
    <step id="treat")";
  const Protocol protocol = resolved(changed(asks_both, R"(<step id="treat")", again));
  const WorstTime worst = worst_time(protocol, stays_low(protocol), Promptness::at_once, kMgPerDl);
  BOOST_TEST((worst.most == 0min));
  // Asked anew it can be answered otherwise.
  const Protocol anew = resolved(changed(changed(asks_both, R"(<step id="treat")", again),
                                         R"(<ask fact="symptoms" fresh="recheck"/>)", R"(<ask fact="symptoms"/>)"));
  BOOST_TEST((worst_time(anew, stays_low(anew), Promptness::at_once, kMgPerDl).most == 30min));
}

BOOST_AUTO_TEST_CASE(a_proof_that_grows_too_large_says_so) {
  const Protocol protocol = resolved();
  BOOST_TEST((worst_time(protocol, stays_low(protocol), Promptness::at_once, kMgPerDl, 2).verdict ==
              WorstTime::Verdict::too_large));
}

BOOST_AUTO_TEST_CASE(very_low_all_night_in_the_shipped_sets_is_as_late_as_the_engine_says) {
  for (const char* set : {"reference", "harbour-lane"}) {
    const Protocol protocol = shipped(set, "low");
    const Scenario scenario{{compares(protocol, "glucose", Comparison::below, "very-low")}, Urgency::clinic_now};
    for (const GlucoseUnit unit : {GlucoseUnit::mg_per_dl, GlucoseUnit::mmol_per_l}) {
      for (const Promptness answers : {Promptness::at_once, Promptness::late}) {
        const WorstTime worst = worst_time(protocol, scenario, answers, unit);
        BOOST_TEST_CONTEXT(set << " " << static_cast<int>(answers) << ": " << way(protocol, worst)) {
          BOOST_TEST((worst.verdict == WorstTime::Verdict::within));
          const Replay replay = replayed(protocol, worst.night, answers, unit);
          BOOST_TEST(replay.came);
          BOOST_TEST((replay.after <= worst.most));
          BOOST_TEST((worst.most - replay.after <= 1min), replay.after.count() << " s");
        }
      }
    }
  }
}

BOOST_AUTO_TEST_SUITE_END()
