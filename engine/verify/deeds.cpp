#include "verify/properties.hpp"

namespace rushlight {

namespace {

bool has_a_dose(const Action& action) {
  const bool gives =
      action.kind == ActionKind::by_mouth || action.kind == ActionKind::glucagon || action.kind == ActionKind::insulin;
  return gives && action.dose;
}

bool is_pausing(const Protocol& protocol, const Action& action) {
  if (action.kind != ActionKind::pump || !action.records) return false;
  const Fact& fact = protocol[action.records->fact];
  return fact.name == "pump-paused" && fact.options[action.records->option].name == "yes";
}

/// A portion of food holds a dose, whether the action names it or not.
bool measures_out_food(const Action& action) {
  for (const Template& line : action.text.line) {
    for (const Piece& piece : line) {
      const auto* filler = std::get_if<Filler>(&piece);
      if (filler != nullptr && (*filler == Filler::food || *filler == Filler::other_foods)) return true;
    }
  }
  return false;
}

}  // namespace

// What went in could not be written down in grams.
void what_is_measured_out_is_a_dose(Checking& checking) {
  for (const Action& action : checking.protocol.actions) {
    if (action.kind == ActionKind::by_mouth && !action.dose && measures_out_food(action))
      checking.error(action.where, DoseUnnamed{action.name});
  }
}

// Where somebody has been called, or help is coming, the next look decides.
void what_did_not_go_in_is_not_given(Checking& checking) {
  const Protocol& protocol = checking.protocol;
  for (const Action& action : protocol.actions) {
    if (!has_a_dose(action) || protocol[action.step].urgency >= Urgency::clinic_now) continue;
    for (const Outcome outcome : {Outcome::refused, Outcome::vomited, Outcome::none_here, Outcome::wrong}) {
      const auto& rule = action.on[static_cast<std::size_t>(outcome)];
      if (!rule || rule->go) continue;
      checking.error(rule->where, NotGiven{action.name, std::string(name_of(outcome)), protocol[action.step].name},
                     Because{"the action `" + action.name + "`", action.where});
    }
  }
}

void a_paused_pump_is_not_forgotten(Checking& checking) {
  const Protocol& protocol = checking.protocol;
  for (const Action& action : protocol.actions) {
    if (action.kind != ActionKind::pump) continue;
    const bool pauses = is_pausing(protocol, action);
    if (pauses && !action.starts) checking.error(action.where, PumpForgotten{action.name, "starts"});
    if (!pauses && action.starts) checking.error(action.where, PumpForgotten{action.name, "records"});
  }
}

// Somebody else, or the same adult half an hour later, must not give it again unasked.
void glucagon_is_remembered(Checking& checking) {
  const Protocol& protocol = checking.protocol;
  for (const Action& action : protocol.actions) {
    if (action.kind != ActionKind::glucagon || action.records || action.counts || protocol[action.step].counts)
      continue;
    checking.error(action.where, GlucagonForgotten{action.name});
  }
}

}  // namespace rushlight
