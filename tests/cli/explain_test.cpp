#include "verify/explain.hpp"

#include <boost/test/data/monomorphic.hpp>
#include <boost/test/data/test_case.hpp>
#include <boost/test/unit_test.hpp>

#include "cli/program.hpp"
#include "cli/protocol_set.hpp"
#include "sanitized.hpp"
#include "verify/program.hpp"

namespace rushlight::tests {

namespace {

const std::string kTree = RUSHLIGHT_SOURCE_DIR;
const char* const kSets[] = {"reference", "harbour-lane"};

/// Every step, rule and watch rule of the protocol's own file.
std::vector<Sought> everything_in(const Protocol& protocol) {
  std::vector<Sought> all;
  for (std::uint16_t step = 0; step < protocol.parts.front().steps; ++step) {
    all.push_back({Sought::Kind::step, StepId{step}, 0});
    for (std::uint16_t rule = 0; rule < protocol.steps[step].rules.size(); ++rule)
      all.push_back({Sought::Kind::rule, StepId{step}, rule});
  }
  for (std::uint16_t watch = 0; watch < protocol.parts.front().watches; ++watch)
    all.push_back({Sought::Kind::watch, protocol.watch[watch].go, watch});
  return all;
}

std::string name_of(const Protocol& protocol, const Sought& sought) {
  if (sought.kind == Sought::Kind::watch) return protocol.watch[sought.index].name;
  const Step& step = protocol[sought.step];
  return protocol.name + ": " + (sought.kind == Sought::Kind::step ? step.name : step.rules[sought.index].name);
}

/// The protocol in which a night ends as soon as it comes there, so that what lies behind is not walked on to.
Protocol ending_there(Protocol protocol, const Sought& sought) {
  if (sought.kind == Sought::Kind::step) {
    Step& step = protocol.steps[sought.step.index];
    step.ends = true;
    step.urgency = Urgency::emergency;  // which ends a visit's night too
    return protocol;
  }
  const StepId end{static_cast<std::uint16_t>(protocol.steps.size())};
  protocol.steps.push_back(Step{"there", Urgency::emergency, {}, {}, {}, {}, {}, {}, {}, true, SourceId{0}, {}});
  if (sought.kind == Sought::Kind::watch) {
    protocol.watch[sought.index].go = end;
  } else {
    Rule& rule = protocol.steps[sought.step.index].rules[sought.index];
    rule.go = end;
    rule.enters.reset();
    rule.visits = rule.hands_over_to = "";
  }
  return protocol;
}

bool comes_there(const Protocol& protocol, const Sought& sought, const Example& example) {
  const Protocol ending = ending_there(protocol, sought);
  Episode episode = beginning(ending, example.setting);
  for (const Event& event : example.events) episode = folded(ending, example.setting.child, std::move(episode), event);
  const std::size_t there = sought.kind == Sought::Kind::step ? sought.step.index : ending.steps.size() - 1;
  return episode.ended && episode.step.index == there;
}

/// A rule that an earlier rule or a danger sign always takes the child from.
bool is_no_way(const Protocol& protocol, const Sought& sought) {
  if (sought.kind != Sought::Kind::rule) return false;
  const Space space(protocol, GlucoseUnit::mg_per_dl);
  Diagrams diagrams(space.sizes());
  Program program(space, diagrams, {{}, Promptness::late, std::vector<CounterId>{}});
  const std::vector<Leading>& ways = program.moves_of(sought.step);
  return std::none_of(ways.begin(), ways.end(),
                      [&](const Leading& way) { return way.by == Leading::By::rule && way.index == sought.index; });
}

}  // namespace

BOOST_AUTO_TEST_SUITE(explaining)

BOOST_DATA_TEST_CASE(an_example_for_a_step_or_rule_of_a_shipped_set_is_walked_there_by_the_engine,
                     boost::unit_test::data::make(kSets), name) {
  const ProtocolSet set = embedded_set(name);
  std::size_t explained_ones = 0;
  for (const LoadedProtocol& loaded : set.protocols) {
    const Protocol& protocol = loaded.checked.protocol();
    const std::vector<Sought> all = everything_in(protocol);
    for (std::size_t i = 0; i < all.size(); i += kSanitized ? 600 : 150) {
      const Sought& sought = all[i];
      const Sighting explanation = example_for(protocol, sought);
      if (!explanation.example) {
        // "Nobody" is no guess: the proof over all nights has no such way either. Deep in a night the search may give
        // up.
        BOOST_TEST((explanation.gave_up || is_no_way(protocol, sought)), name_of(protocol, sought));
        continue;
      }
      BOOST_TEST(comes_there(protocol, sought, *explanation.example), name_of(protocol, sought));
      ++explained_ones;
    }
  }
  BOOST_TEST(explained_ones >= (kSanitized ? 1U : 5U));
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace rushlight::tests
