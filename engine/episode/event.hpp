#pragma once

#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "episode/history.hpp"
#include "episode/value.hpp"
#include "measure/moment.hpp"
#include "protocol/step.hpp"

namespace rushlight {

using Answers = std::vector<std::pair<FactId, Value>>;

/// Questions answered; a fact that was not asked for yet is kept.
struct Answered { Answers answers; };

/// "Something got worse": the same as an answer, said without being asked. Empty when nobody can name it: the opening
/// questions are asked again.
struct GotWorse { Answers answers; };

/// An earlier answer was mistyped: it is believed as corrected from when it was first said. What was given stays given.
struct Corrected { Answers answers; };

/// What became of one action.
struct Deed {
  ActionId action;
  Outcome outcome;
  std::optional<Quantity> amount;  // as given; the advised amount when nobody says
  std::optional<Moment> when;      // when it was given, if earlier than the event
};
struct Done { std::vector<Deed> deeds; };

/// Every action of the step that has no outcome yet, as stated.
struct AllDone {};

struct Called {
  Contact contact;
  Outcome outcome;   // reached, no_answer or told
  std::string text;  // what the clinician said
};

struct Ticked {};
struct LanguageChanged { Language language; };

/// Somebody else carries on from here.
struct TakenOver { std::string by; };

struct Abandoned { std::string why; };

/// What the journal knows of the nights before.
struct Remembered { History past; };

/// Something that happened to the episode, and when, as the place where it was written down saw the clock.
struct Event {
  Moment at;
  std::variant<Ticked, Answered, GotWorse, Corrected, Done, AllDone, Called, LanguageChanged, TakenOver, Abandoned,
               Remembered> what;
};

}  // namespace rushlight
