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

/// Has to work before a reading can tell anything.
bool works_on_glucose(ActionKind kind) {
  return kind == ActionKind::by_mouth || kind == ActionKind::glucagon || kind == ActionKind::insulin;
}

Duration longest_of(const Protocol& protocol, ThresholdId id) {
  Duration longest{0};
  for (const Band& band : protocol[id].bands) {
    if (const auto* time = std::get_if<Duration>(&band.value)) longest = std::max(longest, *time);
  }
  return longest;
}

}  // namespace

// The wait is there so that the reading behind it can tell whether what was given works; one that is as old as the
// wait is long may be from before it, and then nobody is asked to measure.
void no_dose_is_judged_by_an_old_reading(Checking& checking) {
  const Protocol& protocol = checking.protocol;
  for (const Step& step : protocol.steps) {
    if (!step.wait || longest_of(protocol, step.wait->lasts) == Duration{0}) continue;
    const auto given = std::find_if(step.actions.begin(), step.actions.end(),
                                    [&](ActionId id) { return works_on_glucose(protocol[id].kind); });
    if (given == step.actions.end()) continue;
    const Duration lasts = longest_of(protocol, step.wait->lasts);
    for (const Ask& ask : step.asks) {
      const FactKind kind = protocol[ask.fact].kind;
      const bool by_ketones = kind == FactKind::ketones && protocol[*given].kind == ActionKind::insulin;
      if (!ask.fresh || (kind != FactKind::glucose && !by_ketones)) continue;
      const Duration fresh = longest_of(protocol, *ask.fresh);
      if (fresh < lasts) continue;
      checking.error(ask.where,
                     OldReading{step.name, protocol[*given].name, protocol[ask.fact].name, text_from_duration(fresh),
                                text_from_duration(lasts)},
                     Because{"it waits here", step.wait->where});
    }
  }
}

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
