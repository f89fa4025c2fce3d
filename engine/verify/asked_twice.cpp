#include <algorithm>

#include "verify/properties.hpp"
#include "verify/step_parts.hpp"

namespace rushlight {

namespace {

bool is_reading(const Fact& fact) { return fact.kind == FactKind::glucose || fact.kind == FactKind::ketones; }

/// What is given and asked about at once is told by itself.
bool does_something_first(const Protocol& protocol, const Step& step) {
  return std::any_of(step.actions.begin(), step.actions.end(), [&](ActionId id) {
    const ActionKind kind = protocol[id].kind;
    return kind == ActionKind::measure || kind == ActionKind::by_mouth || kind == ActionKind::glucagon;
  });
}

}  // namespace

// A second finger-prick is an action of its own; so is a wait.
void no_reading_is_asked_twice(Checking& checking) {
  const Protocol& protocol = checking.protocol;
  for (const Step& step : protocol.steps) {
    if (step.wait || does_something_first(protocol, step)) continue;
    for (const Ask& ask : step.asks) {
      if (ask.fresh || !is_reading(protocol[ask.fact])) continue;
      const auto from = std::find_if(checking.graph.ways.begin(), checking.graph.ways.end(), [&](const Way& way) {
        return way.kind == Way::Kind::rule && &protocol[way.to] == &step && way.from != way.to &&
               ask_for(protocol[way.from], ask.fact) != nullptr;
      });
      if (from == checking.graph.ways.end()) continue;
      checking.warning(ask.where, AskedTwice{step.name, protocol[ask.fact].name, protocol[from->from].name},
                       Because{"this leads to `" + step.name + "`", from->where});
    }
  }
}

}  // namespace rushlight
