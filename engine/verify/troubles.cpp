#include <algorithm>

#include "verify/properties.hpp"

namespace rushlight {

namespace {

/// Whether somebody is asked, or called, or waits in the step, before it leads on.
bool passes_through(const Protocol& protocol, const Step& step) {
  if (step.ends || step.wait || !step.asks.empty()) return false;
  return std::none_of(step.actions.begin(), step.actions.end(),
                      [&](ActionId action) { return is_call(protocol[action].kind); });
}

struct EndOfTrouble {
  StepId step;
  Where way;  // that leads into it
};

/// A calm end that the outcome leads to with nothing asked on the way.
std::optional<EndOfTrouble> calm_end_of(const Protocol& protocol, const OutcomeRule& outcome) {
  std::vector<bool> seen(protocol.steps.size(), false);
  std::vector<EndOfTrouble> queue{{*outcome.go, outcome.where}};
  for (std::size_t at = 0; at < queue.size(); ++at) {
    const EndOfTrouble here = queue[at];
    if (seen[here.step.index]) continue;
    seen[here.step.index] = true;
    const Step& step = protocol[here.step];
    if (step.ends && step.urgency == Urgency::home) return here;
    if (!passes_through(protocol, step)) continue;
    for (const Rule& rule : step.rules) {
      if (rule.visits.empty() && rule.hands_over_to.empty()) queue.push_back({rule.go, rule.where});
    }
  }
  return std::nullopt;
}

}  // namespace

// What such an end says of the child was said before something did not go in. Of several outcomes that come the same
// way one is told.
void no_trouble_ends_the_night_unasked(Checking& checking) {
  const Protocol& protocol = checking.protocol;
  std::vector<Where> told;
  for (const Action& action : protocol.actions) {
    for (const Outcome outcome : {Outcome::refused, Outcome::vomited, Outcome::none_here, Outcome::wrong}) {
      const auto& rule = action.on[static_cast<std::size_t>(outcome)];
      if (!rule || !rule->go) continue;
      const std::optional<EndOfTrouble> end = calm_end_of(protocol, *rule);
      if (!end || std::find(told.begin(), told.end(), end->way) != told.end()) continue;
      told.push_back(end->way);
      checking.error(end->way, TroubleEnds{action.name, std::string(name_of(outcome)), protocol[end->step].name},
                     Because{"the action `" + action.name + "`", action.where});
    }
  }
}

}  // namespace rushlight
