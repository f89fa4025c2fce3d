#include <algorithm>

#include "verify/properties.hpp"

namespace rushlight {

void rules_read_what_is_asked(Checking& checking) {
  const Protocol& protocol = checking.protocol;
  for (const Step& step : protocol.steps) {
    for (const Rule& rule : step.rules) {
      for (const Condition& condition : rule.when) {
        Subject subject = subject_of(condition);
        if (subject.kind == Subject::Kind::change)
          subject = {Subject::Kind::fact, protocol.marks[subject.index].fact.index};
        if (subject.kind != Subject::Kind::fact || protocol.facts[subject.index].from_child) continue;
        const bool asked = std::any_of(step.asks.begin(), step.asks.end(),
                                       [&](const Ask& ask) { return ask.fact.index == subject.index; });
        if (asked) continue;
        checking.error(condition.where, FactNotAsked{protocol.facts[subject.index].name, step.name},
                       Because{"the step does not ask it", step.where});
      }
    }
  }
}

}  // namespace rushlight
