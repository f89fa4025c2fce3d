#include <boost/test/data/monomorphic.hpp>
#include <boost/test/data/test_case.hpp>
#include <boost/test/unit_test.hpp>

#include "cli/program.hpp"
#include "cli/protocol_set.hpp"
#include "sanitized.hpp"
#include "verify/explain.hpp"

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

/// The protocol as it is, walked by the engine with these events: where it stands after the last.
Episode walked(const Protocol& protocol, const Example& example) {
  Episode episode = beginning(protocol, example.setting);
  for (const Event& event : example.events)
    episode = folded(protocol, example.setting.child, std::move(episode), event);
  return episode;
}

/// It stands in the step, or has just come through it: its questions were answered before.
bool came_to(const Protocol& protocol, const Sought& sought, const Episode& episode) {
  const Cause& cause = episode.cause;
  switch (sought.kind) {
    case Sought::Kind::step:
      return episode.step == sought.step || (cause.kind == Cause::Kind::rule && cause.from == sought.step);
    case Sought::Kind::rule:
      if (cause.kind == Cause::Kind::rule && cause.from == sought.step && cause.index == sought.index) return true;
      break;
    case Sought::Kind::watch:
      if (cause.kind == Cause::Kind::watch && cause.index == sought.index) return true;
      break;
  }
  // It went on at once from where that led: then it stands behind it.
  const StepId led_to = sought.kind == Sought::Kind::watch ? protocol.watch[sought.index].go
                                                           : protocol[sought.step].rules[sought.index].go;
  return cause.kind == Cause::Kind::rule && cause.from == led_to;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(explaining)

BOOST_DATA_TEST_CASE(every_step_and_rule_of_a_shipped_set_has_an_example_that_the_engine_walks_there,
                     boost::unit_test::data::make(kSets), name) {
  const ProtocolSet set = embedded_set(name);
  std::size_t explained_ones = 0;
  for (const LoadedProtocol& loaded : set.protocols) {
    const Protocol& protocol = loaded.checked.protocol();
    const std::vector<Sought> all = everything_in(protocol);
    for (std::size_t i = 0; i < all.size(); i += kSanitized ? 20 : 1) {
      const Sought& sought = all[i];
      const Sighting explanation = example_for(protocol, sought);
      BOOST_REQUIRE_MESSAGE(explanation.example, name_of(protocol, sought) << " has no example");
      BOOST_TEST(arrives(protocol, sought, *explanation.example), name_of(protocol, sought));
      BOOST_TEST(came_to(protocol, sought, walked(protocol, *explanation.example)), name_of(protocol, sought));
      ++explained_ones;
    }
  }
  BOOST_TEST(explained_ones >= (kSanitized ? 20U : 400U));
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace rushlight::tests
