#include "sheet/hours.hpp"

#include <set>

namespace rushlight {
namespace {

constexpr int kNoon = 12 * 60;

void add_edges(std::set<int>& edges, const Protocol& protocol, const Context& context, const Conditions& conditions) {
  for (const Condition& condition : conditions) {
    const auto* within = std::get_if<WithinClock>(&condition.test);
    if (within == nullptr) continue;
    for (const ThresholdId id : {within->from, within->up_to}) {
      if (const auto* time = std::get_if<ClockTime>(&value_in(protocol[id], context))) edges.insert(time->minutes());
    }
  }
}

}  // namespace

std::vector<Hours> hours_of(const Protocol& protocol, const Context& context) {
  std::set<int> edges;
  for (const Threshold& threshold : protocol.thresholds) {
    if (threshold.kind == ThresholdKind::time) continue;
    for (const Band& band : threshold.bands) {
      if (band.clock_from) edges.insert(band.clock_from->minutes());
      if (band.clock_up_to) edges.insert(band.clock_up_to->minutes());
    }
  }
  for (const Watch& watch : protocol.watch) add_edges(edges, protocol, context, watch.when);
  for (const Step& step : protocol.steps) {
    for (const Rule& rule : step.rules) add_edges(edges, protocol, context, rule.when);
  }
  for (const Action& action : protocol.actions) add_edges(edges, protocol, context, action.when);
  const std::vector<int> all(edges.begin(), edges.end());
  std::vector<Hours> hours;
  if (all.empty()) return {{ClockTime::of_minutes(0), ClockTime::of_minutes(0)}};
  for (std::size_t at = 0; at < all.size(); ++at) {
    const Hours each{ClockTime::of_minutes(all[at]), ClockTime::of_minutes(all[(at + 1) % all.size()])};
    const bool holds_noon = within(ClockTime::of_minutes(kNoon), each.from, each.up_to);
    hours.insert(holds_noon ? hours.begin() : hours.end(), each);
  }
  return hours;
}

}  // namespace rushlight
