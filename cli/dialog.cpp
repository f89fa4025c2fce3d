#include "cli/dialog.hpp"

#include <algorithm>

#include "cli/meaning.hpp"
#include "cli/outcome_words.hpp"

namespace rushlight {

bool can_go_wrong(const ShownAction& action) { return is_call(action.kind) || outcomes_of(action.kind).size() > 1; }

Dialog still_meant(const Situation& situation, Dialog dialog) {
  const View& view = situation.view;
  const auto is_open = [&](Contact contact) {
    return std::any_of(view.open_calls.begin(), view.open_calls.end(),
                       [&](const ShownCall& call) { return call.contact == contact; });
  };
  bool gone = false;
  if (const auto* naming = std::get_if<NamingOutcome>(&dialog)) gone = shown_action(view, naming->action) == nullptr;
  if (const auto* saying = std::get_if<SayingHowMuch>(&dialog)) gone = shown_action(view, saying->action) == nullptr;
  if (const auto* units = std::get_if<TypingUnits>(&dialog)) gone = shown_action(view, units->action) == nullptr;
  if (const auto* asking = std::get_if<AskingForDose>(&dialog)) {
    const ShownAction* action = shown_action(view, asking->action);
    gone = action == nullptr || !waits_for_the_clinic(*action);
  }
  if (const auto* either = std::get_if<DrinkOrGlucose>(&dialog)) gone = shown_action(view, either->drink) == nullptr;
  if (const auto* drink = std::get_if<TypingDrink>(&dialog)) gone = shown_action(view, drink->action) == nullptr;
  if (const auto* calling = std::get_if<ReportingCall>(&dialog)) gone = !is_open(calling->contact);
  // Whoever types what was said has somebody on the phone, whatever the clock says: those words stay wanted.
  return gone ? Dialog{OnStep{}} : dialog;
}

Turn turn_after(const Situation& situation, const Dialog& dialog, const std::string& typed) {
  if (key_from_text(typed) == Key::worse) return {NamingWorse{}};
  return std::visit(Meaning(situation, typed), dialog);
}

}  // namespace rushlight
