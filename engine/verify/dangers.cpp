#include "verify/dangers.hpp"

#include <algorithm>

namespace rushlight {

namespace {

/// What the watch calls a danger of one question: all its dangerous answers together.
struct DangerousAnswers {
  FactId fact;
  std::uint64_t answers;
};

std::vector<DangerousAnswers> signs_of(const Protocol& protocol, const Watch& watch) {
  std::vector<DangerousAnswers> signs;
  for (const Condition& condition : watch.when) {
    const auto* test = std::get_if<Is>(&condition.test);
    if (test == nullptr) continue;
    std::uint64_t answers = 0;
    for (const Danger& danger : kDangers) {
      const Fact& fact = protocol[test->fact];
      if (fact.name == danger.fact) answers |= test->options & bit_of(fact, danger.answer);
    }
    if (answers != 0) signs.push_back(DangerousAnswers{test->fact, answers});
  }
  return signs;
}

// The answers of the rule's table that mean the danger; empty when the table does not ask for it.
std::optional<Box> dangerous_part(const Table& table, const DangerousAnswers& sign) {
  for (std::size_t i = 0; i < table.dimensions.size(); ++i) {
    const Dimension& dimension = table.dimensions[i];
    if (!(dimension.subject == Subject{Subject::Kind::fact, sign.fact.index})) continue;
    Box box = table.whole;
    for (std::size_t bit = 0; bit < dimension.stretches.size(); ++bit) {
      const Stretch& stretch = dimension.stretches[bit];
      const bool option = stretch.value >= 0 && stretch.value < 63;  // a number is no option
      const std::uint64_t answer = stretch.unknown ? kUnknownBit : option ? std::uint64_t{1} << stretch.value : 0;
      if ((sign.answers & answer) == 0) box.sides[i].reset(bit);
    }
    return box;
  }
  return std::nullopt;
}

// Whether the rule can be taken by a child who is still in the danger. An early rule is looked at before the others.
bool lets_through(const Table& table, const Step& step, std::size_t rule, const DangerousAnswers& sign) {
  const std::optional<Box> dangerous = dangerous_part(table, sign);
  if (!dangerous) return true;
  Box taken = table.rules[rule];
  taken &= *dangerous;
  std::vector<const Box*> before;
  if (!step.rules[rule].early) {
    for (const Box& watched : table.watched) before.push_back(&watched);
    for (std::size_t earlier = 0; earlier < rule; ++earlier) before.push_back(&table.rules[earlier]);
  }
  return !taken.empty() && !all_taken(taken, before);
}

}  // namespace

std::uint64_t bit_of(const Fact& fact, std::string_view answer) {
  if (answer == "unknown") return kUnknownBit;
  for (std::size_t i = 0; i < fact.options.size(); ++i) {
    if (fact.options[i].name == answer) return std::uint64_t{1} << i;
  }
  return 0;
}

const Danger* danger_of(const Protocol& protocol, const Watch& watch) {
  for (const DangerousAnswers& sign : signs_of(protocol, watch)) {
    for (const Danger& danger : kDangers) {
      const Fact& fact = protocol[sign.fact];
      if (fact.name == danger.fact && (sign.answers & bit_of(fact, danger.answer)) != 0) return &danger;
    }
  }
  return nullptr;
}

bool handles(const Step& step, WatchId watch) {
  return std::find(step.handles.begin(), step.handles.end(), watch) != step.handles.end();
}

const Watch* danger_handled(const Protocol& protocol, const Step& step) {
  for (const WatchId watch : step.handles) {
    if (danger_of(protocol, protocol[watch]) != nullptr) return &protocol[watch];
  }
  return nullptr;
}

const Watch* danger_along(const Protocol& protocol, const std::vector<Tables>& tables, const Way& way) {
  const Step& from = protocol[way.from];
  for (const WatchId id : from.handles) {
    const Watch& watch = protocol[id];
    const std::vector<DangerousAnswers> signs = signs_of(protocol, watch);
    if (signs.empty() || handles(protocol[way.to], id)) continue;
    if (way.kind != Way::Kind::rule) return &watch;
    for (const Table& table : tables[way.from.index].tables) {
      const bool open = std::all_of(signs.begin(), signs.end(), [&](const DangerousAnswers& sign) {
        return lets_through(table, from, way.rule, sign);
      });
      if (open) return &watch;
    }
  }
  return nullptr;
}

}  // namespace rushlight
