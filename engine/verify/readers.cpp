#include "verify/readers.hpp"

#include <variant>

#include "episode/phrases.hpp"
#include "finding/quoted.hpp"
#include "verify/in_words.hpp"

namespace rushlight {
namespace {

// `reads` gives the limit of a condition that reads the thing, and none for any other.
template <class Reads>
std::optional<Reader> gravest(const Protocol& protocol, Reads reads) {
  std::optional<Reader> found;
  const auto look = [&](const Conditions& when, StepId to) {
    for (const Condition& condition : when) {
      const std::optional<std::optional<ThresholdId>> limit = reads(condition);
      if (!limit || (found && protocol[to].urgency <= protocol[found->to].urgency)) continue;
      found = Reader{to, *limit};
    }
  };
  for (const Step& step : protocol.steps) {
    for (const Rule& rule : step.rules) look(rule.when, rule.go);
  }
  for (const Watch& watch : protocol.watch) look(watch.when, watch.go);
  return found;
}

}  // namespace

std::optional<Reader> gravest_reader(const Protocol& protocol, MarkId mark) {
  return gravest(protocol, [&](const Condition& condition) -> std::optional<std::optional<ThresholdId>> {
    const auto* test = std::get_if<HasChanged>(&condition.test);
    if (test == nullptr || !(test->mark == mark)) return std::nullopt;
    return std::optional<ThresholdId>();
  });
}

std::optional<Reader> gravest_reader(const Protocol& protocol, const Tally& tally) {
  if (tally.kind == Tally::Kind::calls) return std::nullopt;
  if (tally.kind == Tally::Kind::marks) return gravest_reader(protocol, MarkId{tally.index});
  return gravest(protocol, [&](const Condition& condition) -> std::optional<std::optional<ThresholdId>> {
    const auto* test = std::get_if<CountedAtLeast>(&condition.test);
    if (test == nullptr || test->counter.index != tally.index) return std::nullopt;
    return std::optional<ThresholdId>(test->limit);
  });
}

std::string words_of(const Protocol& protocol, const Reader& reader) {
  const Step& step = protocol[reader.to];
  const std::string where = quoted(step.name) + ", " + shown_as(step.urgency, Language::en);
  return reader.limit ? "at " + value_words(protocol, *reader.limit) + ": " + where : "decides about " + where;
}

}  // namespace rushlight
