#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "cli/situation.hpp"

namespace rushlight {

// What the screen is about: the step itself, or one of the short menus beside it. A menu never holds up the step: the
// deadline runs on and the alarm rings over it.
struct OnStep {};
struct NamingWorse {};
struct NamingAction {};
struct NamingOutcome {
  ActionId action;
};
// Enter was pressed on a dose that is not taken for given by itself: all of it, some, or none?
struct SayingHowMuch {
  ActionId action;
};
// A dose that only the clinic can say: did it? Enter records nothing.
struct AskingForDose {
  ActionId action;
};
// So many units of a dose that the clinic said.
struct TypingUnits {
  ActionId action;
  Outcome outcome;
};
// So much of a drink went in; in millilitres.
struct TypingDrink {
  ActionId action;
};
// A bare number where both a drink and a glucose may be typed.
struct DrinkOrGlucose {
  ActionId drink;
  std::string typed;
};
struct ReportingCall {
  Contact contact;
};
struct TypingWhatTheySaid {
  Contact contact;
};
// Somebody has answered before, and no call is open: what did they say?
struct HearingThem {
  Contact contact;
};
struct ChoosingCorrection {};
struct Correcting {
  FactId fact;
};
// A reading so high, or in the other unit, that it is typed a second time before it counts.
struct TypingAgain {
  FactId fact;
  Glucose reading;
  bool correcting;  // it replaces an earlier answer
};
struct ChoosingMore {};
struct ConfirmingEnd {};
struct TypingName {};
struct Reading {
  std::string title;
  std::vector<std::string> lines;
  std::vector<std::string> for_the_clinic = {};  // below, under words of its own
};

using Dialog =
    std::variant<OnStep, NamingWorse, NamingAction, NamingOutcome, SayingHowMuch, AskingForDose, TypingUnits,
                 TypingDrink, DrinkOrGlucose, ReportingCall, TypingWhatTheySaid, HearingThem, ChoosingCorrection,
                 Correcting, TypingAgain, ChoosingMore, ConfirmingEnd, TypingName, Reading>;

/// Whether there is anything to say of an action but that it is done.
bool can_go_wrong(const ShownAction& action);

/// The dialog, or the step itself when time has left what the dialog is about: an action that the step no longer shows,
/// a call that has moved on to the next contact.
Dialog still_meant(const Situation& situation, Dialog dialog);

/// What the walk itself has to do.
enum class Command { none, beep, stop, close };

using What = decltype(Event::what);

/// What one typed line leads to.
struct Turn {
  Dialog next;
  std::optional<What> what = std::nullopt;  // the event to write down
  std::string said = "";                    // one sentence above the next prompt
  Command command = Command::none;
};

/// What was meant by a typed line. Pure. A line that means nothing here gives a kind sentence and the same dialog
/// again; the key for "something got worse" means the same in every dialog.
Turn turn_after(const Situation& situation, const Dialog& dialog, const std::string& typed);

}  // namespace rushlight
