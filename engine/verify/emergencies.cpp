#include "verify/dangers.hpp"
#include "verify/properties.hpp"

namespace rushlight {

namespace {

bool calls_emergency(const Protocol& protocol, const Step& step) {
  for (const ActionId id : step.actions) {
    const Action& action = protocol[id];
    if (action.kind == ActionKind::call_emergency && action.when.empty()) return true;
  }
  return false;
}

}  // namespace

// Where the watch fires again the emergency comes back by itself; but a screen that is calmer has been shown, and at a
// step that ends nothing fires any more.
void no_way_leaves_an_emergency_calmly(Checking& checking) {
  const Protocol& protocol = checking.protocol;
  for (const Way& way : checking.graph.ways) {
    const Step& from = protocol[way.from];
    const Step& to = protocol[way.to];
    if (from.urgency != Urgency::emergency || to.urgency == Urgency::emergency) continue;
    const Watch* watch = danger_along(protocol, checking.tables, way);
    if (watch == nullptr) continue;
    const Danger& danger = *danger_of(protocol, *watch);
    checking.error(way.where, EmergencyLeft{from.name, to.name, std::string(danger.child), std::string(danger.fact)},
                   Because{"the step handles watch `" + watch->name + "`", watch->where});
  }
}

// Whoever is sent to the clinic's phone in an emergency loses the minutes that the emergency services would need.
void no_emergency_calls_the_clinic_alone(Checking& checking) {
  const Protocol& protocol = checking.protocol;
  for (const Step& step : protocol.steps) {
    if (step.urgency != Urgency::emergency) continue;
    const Action* clinic = nullptr;
    bool emergency = false;
    for (const ActionId id : step.actions) {
      const Action& action = protocol[id];
      emergency = emergency || action.kind == ActionKind::call_emergency;
      if (action.kind == ActionKind::call_clinic && clinic == nullptr) clinic = &action;
    }
    if (clinic != nullptr && !emergency) checking.error(clinic->where, CallsClinicOnly{step.name, clinic->name});
  }
}

void every_emergency_is_called(Checking& checking) {
  const Protocol& protocol = checking.protocol;
  std::vector<bool> told(protocol.steps.size(), false);
  for (const Watch& watch : protocol.watch) {
    const Step& target = protocol[watch.go];
    if (danger_of(protocol, watch) == nullptr || target.urgency != Urgency::emergency) continue;
    if (calls_emergency(protocol, target) || told[watch.go.index]) continue;
    told[watch.go.index] = true;
    checking.error(target.where, EmergencyNotCalled{target.name, watch.name},
                   Because{"watch `" + watch.name + "` leads here", watch.where});
  }
}

}  // namespace rushlight
