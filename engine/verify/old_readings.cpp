#include <algorithm>

#include "verify/properties.hpp"

namespace rushlight {

namespace {

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

// Twice the half hour for which a reading counts in the shipped sets: common practice, no source.
constexpr Duration kOldestGlucose = std::chrono::minutes{60};

}  // namespace

void no_old_glucose_decides(Checking& checking) {
  const Protocol& protocol = checking.protocol;
  for (const Step& step : protocol.steps) {
    for (const Ask& ask : step.asks) {
      if (!ask.fresh || protocol[ask.fact].kind != FactKind::glucose) continue;
      const Duration fresh = longest_of(protocol, *ask.fresh);
      if (fresh <= kOldestGlucose) continue;
      checking.warning(ask.where, ReadingTooOld{step.name, protocol[ask.fact].name, text_from_duration(fresh),
                                                text_from_duration(kOldestGlucose)});
    }
  }
}

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

}  // namespace rushlight
