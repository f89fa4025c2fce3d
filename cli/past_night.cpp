#include "cli/past_night.hpp"

#include "episode/fold.hpp"
#include "episode/history.hpp"
#include "episode/scene.hpp"
#include "wire/event_from_line.hpp"

namespace rushlight {
namespace {

// A wrong one is in the child as well.
bool is_insulin_in_the_child(const Protocol& protocol, const Given& given) {
  const bool is_in = given.outcome == Outcome::given || given.outcome == Outcome::part || given.outcome == Outcome::wrong;
  return protocol[given.action].kind == ActionKind::insulin && is_in;
}

}  // namespace

std::variant<Episode, std::vector<Finding>> episode_told_by(const std::vector<std::string>& lines,
                                                            const Protocol& protocol, const Child& child,
                                                            const Moment& began, const std::string& file) {
  Episode episode = begun(protocol, child, began);
  std::uint32_t number = 0;
  for (const std::string& line : lines) {
    auto event = event_from_line(line, protocol, child, file, ++number);
    if (auto* findings = std::get_if<std::vector<Finding>>(&event)) return std::move(*findings);
    episode = folded(protocol, child, std::move(episode), std::get<Event>(event));
  }
  return episode;
}

void add_night_to_history(History& history, const Protocol& protocol, const Episode& night) {
  for (const ToldReading& told : night.readings) {
    if (const auto* glucose = std::get_if<Glucose>(&told.value))
      history.readings.push_back({wall(night.clock, told.when), *glucose});
  }
  for (const Given& given : night.given) {
    const Moment when = wall(night.clock, given.when);
    if (treats_a_low(protocol, given)) history.treatments.push_back(when);
    if (!is_insulin_in_the_child(protocol, given)) continue;
    if (!history.last_insulin || history.last_insulin->utc < when.utc) history.last_insulin = when;
  }
}

}  // namespace rushlight
