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

/// Only when the clinic has said to come.
bool is_told_to_come(const Protocol& protocol, const Conditions& when) {
  return std::any_of(when.begin(), when.end(), [&](const Condition& condition) {
    const auto* test = std::get_if<Is>(&condition.test);
    return test != nullptr && protocol[test->fact].name == kClinicSaid &&
           test->options == bit_of(protocol[test->fact], "come");
  });
}

/// The steps that a night can come to with nobody called, from the first step on, each with the one it comes from.
std::vector<std::optional<StepId>> uncalled(const Checking& checking) {
  const Protocol& protocol = checking.protocol;
  std::vector<std::optional<StepId>> from(protocol.steps.size());
  std::vector<StepId> queue;
  const auto reach = [&](StepId step, StepId before) {
    if (from[step.index] || calls(protocol, protocol[step])) return;
    from[step.index] = before;
    queue.push_back(step);
  };
  reach(protocol.start, protocol.start);
  for (std::size_t at = 0; at < queue.size(); ++at) {
    const Step& step = protocol[queue[at]];
    for (const Way& way : checking.graph.ways) {
      if (!(way.from == queue[at])) continue;
      const bool by_phone = way.kind == Way::Kind::rule && has_reached_the_clinic(protocol, step.rules[way.rule].when);
      if (!by_phone) reach(way.to, queue[at]);
    }
    for (std::size_t i = 0; i < protocol.watch.size() && !step.ends; ++i) {
      const WatchId id{static_cast<std::uint16_t>(i)};
      if (!handles(step, id) && !has_reached_the_clinic(protocol, protocol[id].when)) reach(protocol[id].go, queue[at]);
    }
  }
  return from;
}

/// The first of the steps before this one from which on help is wanted and nobody is called.
std::optional<Because> silent_before(const Protocol& protocol, const std::vector<std::optional<StepId>>& from,
                                     StepId step) {
  StepId first = step;
  for (StepId at = *from[step.index]; protocol[at].urgency >= Urgency::clinic_now && !(at == first);
       at = *from[at.index])
    first = at;
  if (first == step) return std::nullopt;
  return Because{"step `" + protocol[first].name + "` leads on without a call", protocol[first].where};
}

Urgency urgency_of_call(Contact contact) {
  if (contact == Contact::emergency) return Urgency::emergency;
  return contact == Contact::on_call ? Urgency::clinic_now : Urgency::clinic;
}

}  // namespace

// Where nothing is waited for the next step may call; where the night ends the screen says whom to see.
void who_waits_for_help_has_called(Checking& checking) {
  const std::vector<std::optional<StepId>> from = uncalled(checking);
  for (std::size_t i = 0; i < from.size(); ++i) {
    const Step& step = checking.protocol.steps[i];
    if (from[i] && step.wait && step.urgency >= Urgency::clinic_now)
      checking.error(step.where, CallMissing{step.name, std::string(name_of(step.urgency))},
                     silent_before(checking.protocol, from, StepId{static_cast<std::uint16_t>(i)}));
  }
}

// A visit is the other protocol's to go on with.
void who_is_told_to_come_goes(Checking& checking) {
  const Protocol& protocol = checking.protocol;
  for (const Step& step : protocol.steps) {
    for (std::size_t rule = 0; rule < step.rules.size() && !step.ends; ++rule) {
      const Rule& each = step.rules[rule];
      if (!each.visits.empty() || !each.hands_over_to.empty() || !is_told_to_come(protocol, each.when)) continue;
      const Step& to = protocol[each.go];
      if (to.urgency < step.urgency)
        checking.error(each.where, ComeIgnored{static_cast<int>(rule) + 1, step.name, to.name},
                       Because{"step `" + to.name + "` is " + std::string(name_of(to.urgency)), to.where});
    }
  }
}

// The screen shows the graver of the two; the file should say the same. Where a danger makes the step too calm, that is
// told.
void no_step_is_calmer_than_its_call(Checking& checking) {
  const Protocol& protocol = checking.protocol;
  for (const Step& step : protocol.steps) {
    const bool told = std::any_of(checking.findings.begin(), checking.findings.end(), [&](const Finding& finding) {
      const bool calm = finding.kind.is<TooCalm>() || finding.kind.is<CalmerThanWatch>();
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
