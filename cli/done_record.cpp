#include "cli/done_record.hpp"

#include <algorithm>

namespace rushlight {

DoneRecord done_record(const Situation& here) {
  const auto& actions = here.view.actions;
  const auto asks = [&](const ShownAction& action) { return asks_how_much(here, action); };
  if (std::any_of(actions.begin(), actions.end(), asks)) return {DoneRecord::Kind::asks_how_much, {}};
  if (dose_of_the_clinic(here.view) != nullptr) return {DoneRecord::Kind::asks_the_clinic, {}};
  for (std::size_t at = 0; at < actions.size(); ++at) {
    const ActionKind kind = actions[at].kind;
    const bool mouth = kind == ActionKind::by_mouth || kind == ActionKind::fluid;
    const bool skin = kind == ActionKind::glucagon || kind == ActionKind::insulin;
    if (!is_pending(here, actions[at]) || !(mouth || skin)) continue;
    if (kind == ActionKind::insulin && !actions[at].dose->amount) continue;  // none is stated
    const bool counted =
        actions[at].dose && actions[at].dose->amount && actions[at].dose->amount->unit != Unit::microgram;
    return {mouth ? DoneRecord::Kind::went_in : DoneRecord::Kind::given,
            counted ? actions[at].dose->amount : std::nullopt, at};
  }
  return {DoneRecord::Kind::only_done, {}};
}

}  // namespace rushlight
