#include <algorithm>

#include "cli/meaning.hpp"
#include "cli/outcome_words.hpp"
#include "cli/readings.hpp"
#include "cli/typed_drink.hpp"
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
  if (place == 0 || place > view_.actions.size()) return only_to(same, view_.actions.size());
  return about(view_.actions[place - 1]);
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

Turn Meaning::operator()(const TypingDrink& same) const {
  if (key_ == Key::enter || shown_action(view_, same.action) == nullptr) return {OnStep{}};
  const std::optional<Quantity> drink = drink_from_text(typed_, language_, true);
  if (!drink) return {same, std::nullopt, say(kDrinkLike, language_)};
  return drunk(same.action, *drink);
}

Turn Meaning::operator()(const ReportingCall& same) const {
  if (key_ == Key::enter) return {OnStep{}};
  if (number_ == 1)
    return {OnStep{}, Called{same.contact, Outcome::reached, ""}, say(kMarked, language_, say(kReached, language_))};
  if (number_ == 2)
    return {OnStep{}, Called{same.contact, Outcome::no_answer, ""},
            same.contact == Contact::emergency ? say(kCallAgainNow, language_)
                                               : say(kMarked, language_, say(kNoAnswer, language_))};
  if (number_ == 3) return {TypingWhatTheySaid{same.contact}};
  const bool may_be_the_clinic = stands_in_for_the_clinic(here_, same.contact);
  if (number_ == 4 && may_be_the_clinic)
    return {OnStep{}, Called{Contact::on_call, Outcome::reached, ""},
            say(kMarked, language_, say(kClinicAfterAll, language_))};
  const std::size_t last = may_be_the_clinic ? 4 : 3;
  const std::optional<Answers> come = told_to_come(here_, same.contact);
  if (come && number_ == static_cast<int>(last) + 1)
    return {OnStep{}, Answered{*come}, say(kMarked, language_, say(kTheySayCome, language_))};
  return only_to(same, come ? last + 1 : last);
}

Turn Meaning::operator()(const TypingWhatTheySaid& same) const {
  if (key_ == Key::enter) return {ReportingCall{same.contact}};
  return {OnStep{}, Called{same.contact, Outcome::told, std::string(trimmed(typed_))}};
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
  return {same, std::nullopt, say(kBackToStep, language_)};
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
  return {next, Done{{Deed{action.id, outcome, std::nullopt, std::nullopt}}},
          say(kMarked, language_, outcome_line(outcome, action.kind, language_))};
}

Turn Meaning::drunk(ActionId action, const Quantity& drink) const {
  return {OnStep{}, Done{{Deed{action, Outcome::part, drink, std::nullopt}}},
          say(kDrunk, language_, text_from_quantity(drink))};
}

}  // namespace rushlight
