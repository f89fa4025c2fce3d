#include "taken_back.hpp"

#include <algorithm>

namespace rushlight::tests {
namespace {

bool is_danger(const Watch& watch, FactId fact, std::uint16_t option) {
  return !watch.told && std::any_of(watch.when.begin(), watch.when.end(), [&](const Condition& condition) {
    const auto* test = std::get_if<Is>(&condition.test);
    return test != nullptr && test->fact == fact && (test->options >> option & 1U) != 0;
  });
}

Answers taken_back_in(const Version& version, const Child& child, Moment moment) {
  const Protocol& protocol = version.protocol;
  const Scene scene = scene_at(protocol, child, version.episode, moment.utc);
  Answers answers;
  for (const WatchId id : protocol[version.episode.step].handles) {
    if (protocol[id].told || !all_hold(scene, protocol[id].when, Unanswered::holds_nothing)) continue;
    for (const Condition& condition : protocol[id].when) {
      const std::optional<FactId> fact = question_in(protocol, condition);
      for (std::uint16_t option = 0; fact && option < protocol[*fact].options.size(); ++option) {
        const bool is_harmless = std::none_of(protocol.watch.begin(), protocol.watch.end(),
                                              [&](const Watch& watch) { return is_danger(watch, *fact, option); });
        if (!is_harmless) continue;
        answers.emplace_back(*fact, Chosen{option});
        break;
      }
    }
  }
  return answers;
}

}  // namespace

// What one of them handles stands in the other as well. An edit leaves the questions as they are.
Answers dangers_taken_back(const Version& was, const Version& now, const Child& child, Moment moment) {
  Answers taken = taken_back_in(was, child, moment);
  for (const auto& answer : taken_back_in(now, child, moment)) {
    const auto same = [&](const auto& each) { return each.first == answer.first; };
    if (std::none_of(taken.begin(), taken.end(), same)) taken.push_back(answer);
  }
  return taken;
}

}  // namespace rushlight::tests
