#include <algorithm>
#include <map>

#include "protocol/words.hpp"
#include "verify/properties.hpp"
#include "verify/step_parts.hpp"

namespace rushlight {

namespace {

/// All conditions of a protocol: of watches, rules, dose rows and actions.
template <class Visit>
void each_condition(const Protocol& protocol, const Visit& visit) {
  each_leading_condition(protocol, visit);
  for (const Dose& dose : protocol.doses) {
    for (const DoseRow& row : dose.rows) std::for_each(row.when.begin(), row.when.end(), visit);
  }
  for (const Action& action : protocol.actions) std::for_each(action.when.begin(), action.when.end(), visit);
}

// `below` and `at-least` part the same two sides: the border itself is on the upper one.
bool border_is_above(Comparison comparison) {
  return comparison == Comparison::below || comparison == Comparison::at_least;
}

std::string word_of(Comparison comparison) {
  return std::string(words::kComparisons[static_cast<std::size_t>(comparison)]);
}

/// The comparison that parts the same two sides and leaves the border on the other one: the words mirror each other.
Comparison other_way(Comparison comparison) { return static_cast<Comparison>(3 - static_cast<int>(comparison)); }

/// Glucagon is counted so that it is remembered, whether a rule reads it or not.
bool counts_glucagon(const Protocol& protocol, CounterId counter) {
  return std::any_of(protocol.actions.begin(), protocol.actions.end(), [&](const Action& action) {
    return action.kind == ActionKind::glucagon &&
           (action.counts ? action.counts : protocol[action.step].counts) == counter;
  });
}

}  // namespace

// A clinic's "from 3.0" and "over 3.0" are two protocols. Which is meant, most of the file says.
void every_border_is_judged_alike(Checking& checking) {
  // A border that moved in one place is told there: as a gap, or as taken twice.
  const bool told = std::any_of(checking.findings.begin(), checking.findings.end(),
                                [](const Finding& finding) { return finding.kind.is<BorderTakenTwice>(); });
  if (told || has_error(checking.findings)) return;
  const Protocol& protocol = checking.protocol;
  struct Sides {
    std::vector<const Condition*> above, below;  // the border itself counts as above it, as below it
  };
  std::map<std::pair<std::uint16_t, std::uint16_t>, Sides> borders;
  each_condition(protocol, [&](const Condition& condition) {
    const auto* test = std::get_if<Compares>(&condition.test);
    if (test == nullptr) return;
    Sides& sides = borders[{test->fact.index, test->limit.index}];
    (border_is_above(test->comparison) ? sides.above : sides.below).push_back(&condition);
  });
  for (const auto& [names, sides] : borders) {
    // Where as many say one thing as the other, nobody can tell which is meant.
    if (sides.above.empty() || sides.below.empty() || sides.above.size() == sides.below.size()) continue;
    const bool few_above = sides.above.size() < sides.below.size();
    const std::vector<const Condition*>&few = few_above ? sides.above : sides.below,
                            &many = few_above ? sides.below : sides.above;
    for (const Condition* condition : few) {
      const Comparison written = std::get<Compares>(condition->test).comparison;
      checking.warning(condition->where,
                       BorderApart{protocol.thresholds[names.second].name, word_of(written),
                                   word_of(other_way(written)), static_cast<int>(many.size())},
                       Because{"one of the others", many.front()->where});
    }
  }
}

void every_counter_is_read(Checking& checking) {
  if (has_error(checking.findings)) return;
  const Protocol& protocol = checking.protocol;
  std::vector<bool> read(protocol.counters.size(), false);
  each_condition(protocol, [&](const Condition& condition) {
    if (const auto* test = std::get_if<CountedAtLeast>(&condition.test)) read[test->counter.index] = true;
  });
  if (std::none_of(read.begin(), read.end(), [](bool each) { return each; })) return;  // it only counts
  for (std::size_t i = 0; i < read.size(); ++i) {
    if (!read[i] && !counts_glucagon(protocol, CounterId{static_cast<std::uint16_t>(i)}))
      checking.warning(protocol.counters[i].where, NobodyUses{"counter", protocol.counters[i].name});
  }
}

void every_glucagon_is_counted(Checking& checking) {
  const Protocol& protocol = checking.protocol;
  const auto counter_of = [&](const Action& action) {
    return action.counts ? action.counts : protocol[action.step].counts;
  };
  std::optional<CounterId> usual;
  const Action* counted = nullptr;
  for (const Action& action : protocol.actions) {
    if (action.kind != ActionKind::glucagon || !counter_of(action) || usual) continue;
    usual = counter_of(action);
    counted = &action;
  }
  if (!usual) return;
  for (const Action& action : protocol.actions) {
    // What is neither counted nor recorded is told as forgotten.
    if (action.kind != ActionKind::glucagon || counter_of(action) || !action.records) continue;
    checking.error(action.where, GlucagonUncounted{action.name, protocol[*usual].name},
                   Because{"`" + counted->name + "` counts it", counted->where});
  }
}

}  // namespace rushlight
