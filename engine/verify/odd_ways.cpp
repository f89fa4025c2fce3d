#include <map>
#include <vector>

#include "finding/quoted.hpp"
#include "verify/properties.hpp"

namespace rushlight {

namespace {

/// A way to a step, by what leads there.
struct LedThere {
  std::string by;    // the same of all ways of one kind: "a wait that nobody answered"
  std::string from;  // "the wait of step `treat`"
  Where where;
};

constexpr const char* kByRule = "rule";

std::string by_outcome(Outcome outcome) { return "actions that come out as " + quoted(std::string(name_of(outcome))); }

using WaysThere = std::map<std::uint16_t, std::vector<LedThere>>;

void add_ways_from(const Protocol& protocol, const Step& step, WaysThere& ways) {
  const std::string name = "step " + quoted(step.name);
  for (const Rule& rule : step.rules) {
    if (!rule.hands_over_to.empty()) continue;
    const bool visits = !rule.visits.empty();
    ways[rule.go.index].push_back({visits ? "visits to " + quoted(rule.visits) : kByRule,
                                   (visits ? "a visit to " + quoted(rule.visits) + " from " : "a rule of ") + name,
                                   rule.where});
  }
  if (step.wait)
    ways[step.wait->go.index].push_back({"waits that nobody answered", "the wait of " + name, step.wait->where});
  for (const ActionId id : step.actions) {
    const Action& action = protocol[id];
    for (int i = 0; i < kOutcomes; ++i) {
      const auto& rule = action.on[static_cast<std::size_t>(i)];
      if (!rule || !rule->go) continue;
      const auto outcome = static_cast<Outcome>(i);
      ways[rule->go->index].push_back(
          {by_outcome(outcome), quoted(std::string(name_of(outcome))) + " of " + quoted(action.name), rule->where});
    }
  }
}

constexpr std::size_t kEnoughOthers = 4;

}  // namespace

// A step that says "the check is late" is for silence; a rule that leads there meant another.
void no_way_is_alone_of_its_kind(Checking& checking) {
  const Protocol& protocol = checking.protocol;
  WaysThere all;
  for (const Step& step : protocol.steps) add_ways_from(protocol, step, all);
  for (const Watch& watch : protocol.watch)
    all[watch.go.index].push_back({"watches", "watch " + quoted(watch.name), watch.where});
  for (const auto& [to, ways] : all) {
    if (ways.size() <= kEnoughOthers) continue;
    std::map<std::string, std::size_t> times;
    for (const LedThere& way : ways) ++times[way.by];
    if (times.size() != 2 || (times.begin()->second != 1 && times.rbegin()->second != 1)) continue;
    const bool first_is_odd = times.begin()->second == 1;
    const std::string& odd = first_is_odd ? times.begin()->first : times.rbegin()->first;
    const std::string& usual = first_is_odd ? times.rbegin()->first : times.begin()->first;
    if (usual == kByRule) continue;
    const LedThere *here = nullptr, *there = nullptr;
    for (const LedThere& way : ways) (way.by == odd ? here : there) = &way;
    checking.warning(here->where, OddWay{protocol.steps[to].name, here->from, usual, static_cast<int>(ways.size()) - 1},
                     Because{"one of them", there->where});
  }
}

}  // namespace rushlight
