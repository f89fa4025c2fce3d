#include <algorithm>

#include "verify/law_properties.hpp"

namespace rushlight {

LawTables tables_for_law(const Protocol& protocol, const Step& step, const Conditions& when) {
  Step with_law = step;
  with_law.rules.push_back(
      Rule{"", when, false, step.rules.empty() ? StepId{0} : step.rules.back().go, {}, step.source, step.where});
  return LawTables{tables_of(protocol, with_law).tables};
}

bool nobody_meets(const Protocol& protocol, const Conditions& when) {
  if (when.empty()) return false;
  Step step = protocol[protocol.start];
  step.rules.clear();
  const LawTables law = tables_for_law(protocol, step, when);
  const auto holds_nobody = [](const Table& table) {
    const Box& box = LawTables::law(table);
    return std::any_of(box.sides.begin(), box.sides.end(), [](const Stretches& side) { return !side.any(); });
  };
  return !law.tables.empty() && std::all_of(law.tables.begin(), law.tables.end(), holds_nobody);
}

bool is_known_in(const Protocol& protocol, const Step& step, const Condition& condition) {
  const Subject subject = subject_of(condition);
  if (subject.kind != Subject::Kind::fact || protocol.facts[subject.index].from_child) return true;
  return std::any_of(step.asks.begin(), step.asks.end(),
                     [&](const Ask& ask) { return ask.fact.index == subject.index; });
}

std::vector<const Box*> taken_before(const Table& table, std::size_t rule) {
  std::vector<const Box*> before;
  for (const Box& watched : table.watched) before.push_back(&watched);
  for (std::size_t earlier = 0; earlier < rule; ++earlier) before.push_back(&table.rules[earlier]);
  return before;
}

}  // namespace rushlight
