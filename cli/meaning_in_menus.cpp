#include <algorithm>

#include "cli/meaning.hpp"
#include "cli/outcome_words.hpp"
#include "cli/readings.hpp"
#include "cli/typed_drink.hpp"
#include "cli/typed_units.hpp"
#include "measure/written.hpp"

namespace rushlight {

Meaning::Meaning(const Situation& situation, const std::string& typed)
    : here_(situation),
      view_(situation.view),
      language_(situation.language()),
      typed_(typed),
      key_(key_from_text(typed)),
      number_(number_from_text(typed)) {}

Turn Meaning::operator()(const NamingWorse& same) const {
  if (key_ == Key::enter) return {OnStep{}};
  const auto signs = signs_of(here_.protocol, here_.child, here_.episode);
  const std::size_t place = number_ ? static_cast<std::size_t>(*number_) : 0;
  const std::size_t most = signs.size() + (lists_any_worry(here_.protocol) ? 0 : 1);
  if (place == 0 || place > most) return only_to(same, most);
  if (place == signs.size() + 1) return {something_else(here_), GotWorse{}};
  const auto& [sign, text] = signs[place - 1];
  return {OnStep{}, GotWorse{{{sign.fact, Chosen{static_cast<std::uint16_t>(sign.option)}}}},
          say(kMarked, language_, text)};
}

Turn Meaning::operator()(const NamingAction& same) const {
  if (key_ == Key::enter) return {OnStep{}};
  const std::size_t place = number_ ? static_cast<std::size_t>(*number_) : 0;
  const bool listed = place > 0 && place <= view_.actions.size() && can_go_wrong(view_.actions[place - 1]);
  if (listed) return about(view_.actions[place - 1]);
  std::string places;
  for (std::size_t at = 0; at < view_.actions.size(); ++at) {
    if (can_go_wrong(view_.actions[at])) places += (places.empty() ? "" : ", ") + std::to_string(at + 1);
  }
  return {same, std::nullopt, say(kOnlyThese, language_, places)};
}

Turn Meaning::operator()(const NamingOutcome& same) const {
  const ShownAction* action = shown_action(view_, same.action);
  if (key_ == Key::enter || action == nullptr) return {OnStep{}};
  return outcome_chosen(same, *action, outcomes_of(action->kind), OnStep{});
}

Turn Meaning::operator()(const SayingHowMuch& same) const {
  const ShownAction* action = shown_action(view_, same.action);
  if (key_ == Key::enter || action == nullptr) return {OnStep{}};
  return outcome_chosen(same, *action, amounts_of(action->kind), after_deeds(same.action));
}

// Whoever has the dose has reached the clinic.
Turn Meaning::operator()(const AskingForDose& same) const {
  const ShownAction* action = shown_action(view_, same.action);
  if (key_ == Key::enter || action == nullptr) return {OnStep{}};
  const std::optional<bool> yes = yes_no_from_text(typed_);
  if (number_ == 1 || (yes && !*yes)) {
    if (view_.call) return {ReportingCall{view_.call->contact}};
    const Quantity none{Decimal{}, Unit::insulin_unit};
    return {OnStep{}, Done{{Deed{same.action, Outcome::given, none, std::nullopt}}},
            say(kMarked, language_, say(kNoDose, language_))};
  }
  if (number_ != 2 && !yes) return only_to(same, 2);
  Turn turn{SayingHowMuch{same.action}};
  if (view_.call) turn.what = Called{Contact::on_call, Outcome::reached, ""};
  return turn;
}

Turn Meaning::operator()(const TypingUnits& same) const {
  if (shown_action(view_, same.action) == nullptr) return {OnStep{}};
  std::optional<Quantity> units;
  if (key_ != Key::enter && key_ != Key::cant_tell) {
    units = units_from_text(typed_, language_);
    if (!units) return {same, std::nullopt, say(kUnitsLike, language_)};
  }
  return {after_deeds(same.action), Done{{Deed{same.action, same.outcome, units, std::nullopt}}},
          say(kMarked, language_, outcome_line(same.outcome, ActionKind::insulin, language_))};
}

Turn Meaning::operator()(const TypingDrink& same) const {
  if (key_ == Key::enter || shown_action(view_, same.action) == nullptr) return {OnStep{}};
  const std::optional<Quantity> drink = drink_from_text(typed_, language_, true);
  if (!drink) return {same, std::nullopt, say(kDrinkLike, language_)};
  return drunk(same.action, *drink);
}

Turn Meaning::operator()(const DrinkOrGlucose& same) const {
  if (key_ == Key::enter || shown_action(view_, same.drink) == nullptr) return {OnStep{}};
  const std::optional<Quantity> drink = drink_from_text(same.typed, language_, true);
  if (number_ == 1 && drink) return drunk(same.drink, *drink);
  if (number_ == 2) return Meaning(here_, same.typed).early_glucose();
  return only_to(same, 2);
}

// The clinic's dose is asked for once somebody there has answered.
Dialog Meaning::after_answer(Contact contact) const {
  const ShownAction* dose = dose_of_the_clinic(view_);
  return dose != nullptr && contact != Contact::emergency ? Dialog{AskingForDose{dose->id}} : Dialog{OnStep{}};
}

Turn Meaning::operator()(const ReportingCall& same) const {
  if (key_ == Key::enter) return {OnStep{}};
  if (number_ == 1)
    return {after_answer(same.contact), Called{same.contact, Outcome::reached, ""},
            say(kMarked, language_, say(kReached, language_))};
  if (number_ == 2)
    return {OnStep{}, Called{same.contact, Outcome::no_answer, ""},
            same.contact == Contact::emergency ? say(kCallAgainNow, language_)
                                               : say(kMarked, language_, say(kNoAnswer, language_))};
  if (number_ == 3) return {TypingWhatTheySaid{same.contact}};
  const bool may_be_the_clinic = stands_in_for_the_clinic(here_, same.contact);
  if (number_ == 4 && may_be_the_clinic)
    return {after_answer(Contact::on_call), Called{Contact::on_call, Outcome::reached, ""},
            say(kMarked, language_, say(kClinicAfterAll, language_))};
  const std::size_t last = may_be_the_clinic ? 4 : 3;
  const std::optional<Answers> come = told_to_come(here_, same.contact);
  if (come && number_ == static_cast<int>(last) + 1)
    return {OnStep{}, Answered{*come}, say(kMarked, language_, say(kTheySayCome, language_))};
  return only_to(same, come ? last + 1 : last);
}

Turn Meaning::operator()(const TypingWhatTheySaid& same) const {
  if (key_ == Key::enter) return {ReportingCall{same.contact}};
  return {after_answer(same.contact), Called{same.contact, Outcome::told, std::string(trimmed(typed_))}};
}

Turn Meaning::operator()(const HearingThem& same) const {
  if (key_ == Key::enter) return {OnStep{}};
  if (number_ == 1) return {TypingWhatTheySaid{same.contact}};
  const std::optional<Answers> come = told_to_come(here_, same.contact);
  if (come && number_ == 2) return {OnStep{}, Answered{*come}, say(kMarked, language_, say(kTheySayCome, language_))};
  return only_to(same, come ? 2 : 1);
}

Turn Meaning::operator()(const ChoosingCorrection& same) const {
  if (key_ == Key::enter) return {OnStep{}};
  const std::size_t most = std::min(past_answers(here_).size(), kMostShownAnswers);
  if (!number_ || static_cast<std::size_t>(*number_) > most) return only_to(same, most);
  return {Correcting{past_answers(here_)[static_cast<std::size_t>(*number_) - 1].question.id}};
}

Turn Meaning::operator()(const Correcting& same) const {
  if (key_ == Key::enter) return {OnStep{}};
  const ShownQuestion question = question_of(here_, same.fact);
  if (key_ == Key::cant_tell) return told(question, CantTell{}, true);
  return typed_answer(same, question, true);
}

Turn Meaning::operator()(const TypingAgain& same) const {
  if (key_ == Key::enter) return {OnStep{}, std::nullopt, say(kNotKept, language_, text_from_glucose(same.reading))};
  const ShownQuestion question = question_of(here_, same.fact);
  if (key_ == Key::cant_tell && (same.correcting || is_asked(same.fact)))
    return told(question, CantTell{}, same.correcting);
  const auto answer = answer_from_text(question, typed_, here_.setting());
  if (answer == std::variant<Value, std::string>{Value{same.reading}})
    return told(question, same.reading, same.correcting);
  return typed_answer(same, question, same.correcting);
}

Turn Meaning::operator()(const ChoosingMore& same) const {
  if (key_ == Key::enter) return {OnStep{}};
  switch (number_.value_or(0)) {
    case 1:
      return {all_cautions(here_)};
    case 2:
      return {contacts(here_)};
    case 3:
      return {given_so_far(here_)};
    case 4:
      return {TypingName{}};
    case 5:
      return {OnStep{}, LanguageChanged{language_ == Language::en ? Language::es : Language::en}};
    case 6:
      return {OnStep{}, std::nullopt, "", view_.ended ? Command::close : Command::stop};
    case 7:
      return {ConfirmingEnd{}};
    default:
      return only_to(same, 7);
  }
}

Turn Meaning::operator()(const ConfirmingEnd& same) const {
  const std::optional<bool> yes = yes_no_from_text(typed_);
  if (key_ == Key::enter || number_ == 2 || (yes && !*yes)) return {OnStep{}};
  if (number_ == 1 || yes) return {OnStep{}, Abandoned{""}};
  return only_to(same, 2);
}

Turn Meaning::operator()(const TypingName&) const {
  if (key_ == Key::enter) return {OnStep{}};
  const std::string name(trimmed(typed_));
  return {OnStep{}, TakenOver{name}, say(kTakenOverBy, language_, name)};
}

Turn Meaning::operator()(const Reading& same) const {
  if (key_ == Key::enter) return {OnStep{}};
  if (key_ == Key::more) return {ChoosingMore{}};
  return not_understood(same);
}

Turn Meaning::stay(const Both& sentence, const std::string& one) const {
  return {OnStep{}, std::nullopt, say(sentence, language_, one)};
}

Turn Meaning::not_understood(const Dialog& same) const {
  return {same, std::nullopt, say(kNotUnderstood, language_, std::string(trimmed(typed_)))};
}

Turn Meaning::only_to(const Dialog& same, std::size_t most) const {
  return {same, std::nullopt, say(kOnlyOneOf, language_, std::to_string(most))};
}

Turn Meaning::outcome_chosen(const Dialog& same, const ShownAction& action, const std::vector<Outcome>& outcomes,
                             const Dialog& next) const {
  if (!number_ || static_cast<std::size_t>(*number_) > outcomes.size()) return only_to(same, outcomes.size());
  const Outcome outcome = outcomes[static_cast<std::size_t>(*number_) - 1];
  if (outcome == Outcome::part && action.kind == ActionKind::fluid) return {TypingDrink{action.id}};
  const bool went_in = outcome == Outcome::given || outcome == Outcome::part;
  if (went_in && waits_for_the_clinic(action)) return {TypingUnits{action.id, outcome}};
  return {next, Done{{Deed{action.id, outcome, std::nullopt, std::nullopt}}},
          say(kMarked, language_, outcome_line(outcome, action.kind, language_))};
}

Turn Meaning::drunk(ActionId action, const Quantity& drink) const {
  return {OnStep{}, Done{{Deed{action, Outcome::part, drink, std::nullopt}}},
          say(kDrunk, language_, text_from_quantity(drink))};
}

}  // namespace rushlight
