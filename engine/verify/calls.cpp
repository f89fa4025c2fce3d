#include <algorithm>

#include "verify/dangers.hpp"
#include "verify/properties.hpp"

namespace rushlight {

namespace {

bool calls(const Protocol& protocol, const Step& step) {
  return std::any_of(step.actions.begin(), step.actions.end(), [&](ActionId id) {
    const Action& action = protocol[id];
    return is_call(action.kind) && action.call && action.when.empty();
  });
}

/// Whoever knows what the clinic says has reached it.
bool has_reached_the_clinic(const Protocol& protocol, const Conditions& when) {
  return std::any_of(when.begin(), when.end(), [&](const Condition& condition) {
    const auto* test = std::get_if<Is>(&condition.test);
    if (test == nullptr || protocol[test->fact].name != kClinicSaid) return false;
    const Fact& said = protocol[test->fact];
    return (test->options & ~(bit_of(said, "come") | bit_of(said, "stay"))) == 0;
  });
}

/// The steps that a night can come to with nobody called, from the first step on.
std::vector<bool> uncalled(const Checking& checking) {
  const Protocol& protocol = checking.protocol;
  std::vector<bool> reached(protocol.steps.size(), false);
  std::vector<StepId> queue;
  const auto reach = [&](StepId step) {
    if (reached[step.index] || calls(protocol, protocol[step])) return;
    reached[step.index] = true;
    queue.push_back(step);
  };
  reach(protocol.start);
  for (std::size_t at = 0; at < queue.size(); ++at) {
    const Step& step = protocol[queue[at]];
    for (const Way& way : checking.graph.ways) {
      if (!(way.from == queue[at])) continue;
      const bool by_phone = way.kind == Way::Kind::rule && has_reached_the_clinic(protocol, step.rules[way.rule].when);
      if (!by_phone) reach(way.to);
    }
    for (std::size_t i = 0; i < protocol.watch.size() && !step.ends; ++i) {
      const WatchId id{static_cast<std::uint16_t>(i)};
      if (!handles(step, id) && !has_reached_the_clinic(protocol, protocol[id].when)) reach(protocol[id].go);
    }
  }
  return reached;
}

Urgency urgency_of_call(Contact contact) {
  if (contact == Contact::emergency) return Urgency::emergency;
  return contact == Contact::on_call ? Urgency::clinic_now : Urgency::clinic;
}

}  // namespace

// Where nothing is waited for the next step may call; where the night ends the screen says whom to see.
void who_waits_for_help_has_called(Checking& checking) {
  const std::vector<bool> reached = uncalled(checking);
  for (std::size_t i = 0; i < reached.size(); ++i) {
    const Step& step = checking.protocol.steps[i];
    if (reached[i] && step.wait && step.urgency >= Urgency::clinic_now)
      checking.error(step.where, CallMissing{step.name, std::string(name_of(step.urgency))});
  }
}

// The screen shows the graver of the two; the file should say the same. Where a danger makes the step too calm, that is
// told.
void no_step_is_calmer_than_its_call(Checking& checking) {
  const Protocol& protocol = checking.protocol;
  for (const Step& step : protocol.steps) {
    const bool told = std::any_of(checking.findings.begin(), checking.findings.end(), [&](const Finding& finding) {
      const bool calm =
          std::holds_alternative<TooCalm>(finding.kind) || std::holds_alternative<CalmerThanWatch>(finding.kind);
      return calm && finding.where == step.where;
    });
    for (const ActionId id : step.actions) {
      const Action& action = protocol[id];
      if (told || !is_call(action.kind) || !action.call || !action.when.empty()) continue;
      const Urgency call = urgency_of_call(action.call->contact);
      if (step.urgency >= call) continue;
      checking.error(step.where, CalmerThanCall{step.name, action.name, std::string(name_of(call))},
                     Because{"the call `" + action.name + "`", action.where});
      break;
    }
  }
}

}  // namespace rushlight
