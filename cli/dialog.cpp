#include "cli/dialog.hpp"

#include <algorithm>

#include "cli/keys.hpp"
#include "cli/outcome_words.hpp"
#include "cli/readings.hpp"
#include "cli/say.hpp"
#include "cli/typed_drink.hpp"
#include "measure/written.hpp"

namespace rushlight {
namespace {

const ShownAction* action_of(const View& view, ActionId id) {
  for (const ShownAction& action : view.actions) {
    if (action.id == id) return &action;
  }
  return nullptr;
}

/// One typed line against one dialog.
class Meaning {
 public:
  Meaning(const Situation& situation, const std::string& typed)
      : here_(situation),
        view_(situation.view),
        language_(situation.language()),
        typed_(typed),
        key_(key_from_text(typed)),
        number_(number_from_text(typed)) {}

  Turn operator()(const OnStep&) const {
    switch (key_.value_or(Key::enter)) {
      case Key::worse:
        return {NamingWorse{}};
      case Key::back:
        return {ChoosingCorrection{}};
      case Key::why:
        return {why(here_)};
      case Key::more:
        return {ChoosingMore{}};
      case Key::trouble:
        return trouble();
      case Key::call:
        return view_.call ? Turn{ReportingCall{view_.call->contact}} : stay(kNoOpenCall);
      case Key::beep:
        return {OnStep{}, std::nullopt, "", Command::beep};
      case Key::stop:
        return {OnStep{}, std::nullopt, "", view_.ended ? Command::close : Command::stop};
      case Key::cant_tell:
        return cant_tell();
      case Key::enter:
        break;
    }
    if (const std::optional<Turn> drink = typed_drink()) return *drink;
    switch (phase_of(here_)) {
      case Phase::ask:
        return on_question();
      case Phase::act:
        return on_actions();
      case Phase::wait:
        return on_wait();
      case Phase::ended:
        break;
    }
    return key_ ? Turn{OnStep{}, std::nullopt, "", Command::close} : not_understood(OnStep{});
  }

  Turn operator()(const NamingWorse& same) const {
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

  Turn operator()(const NamingAction& same) const {
    if (key_ == Key::enter) return {OnStep{}};
    const std::size_t place = number_ ? static_cast<std::size_t>(*number_) : 0;
    if (place == 0 || place > view_.actions.size()) return only_to(same, view_.actions.size());
    return about(view_.actions[place - 1]);
  }

  Turn operator()(const NamingOutcome& same) const {
    const ShownAction* action = action_of(view_, same.action);
    if (key_ == Key::enter || action == nullptr) return {OnStep{}};
    return outcome_chosen(same, *action, outcomes_of(action->kind), OnStep{});
  }

  Turn operator()(const SayingHowMuch& same) const {
    const ShownAction* action = action_of(view_, same.action);
    if (key_ == Key::enter || action == nullptr) return {OnStep{}};
    return outcome_chosen(same, *action, amounts_of(action->kind), after_deeds(same.action));
  }

  Turn operator()(const TypingDrink& same) const {
    if (key_ == Key::enter || action_of(view_, same.action) == nullptr) return {OnStep{}};
    const std::optional<Quantity> drink = drink_from_text(typed_, language_, true);
    if (!drink) return {same, std::nullopt, say(kDrinkLike, language_)};
    return drunk(same.action, *drink);
  }

  Turn operator()(const ReportingCall& same) const {
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

  Turn operator()(const TypingWhatTheySaid& same) const {
    if (key_ == Key::enter) return {ReportingCall{same.contact}};
    return {OnStep{}, Called{same.contact, Outcome::told, std::string(trimmed(typed_))}};
  }

  Turn operator()(const ChoosingCorrection& same) const {
    if (key_ == Key::enter) return {OnStep{}};
    const std::size_t most = std::min(past_answers(here_).size(), kMostShownAnswers);
    if (!number_ || static_cast<std::size_t>(*number_) > most) return only_to(same, most);
    return {Correcting{past_answers(here_)[static_cast<std::size_t>(*number_) - 1].question.id}};
  }

  Turn operator()(const Correcting& same) const {
    if (key_ == Key::enter) return {OnStep{}};
    const ShownQuestion question = question_of(here_, same.fact);
    if (key_ == Key::cant_tell) return told(question, CantTell{}, true);
    return typed_answer(same, question, true);
  }

  Turn operator()(const TypingAgain& same) const {
    if (key_ == Key::enter) return {OnStep{}, std::nullopt, say(kNotKept, language_, text_from_glucose(same.reading))};
    const ShownQuestion question = question_of(here_, same.fact);
    if (key_ == Key::cant_tell && (same.correcting || is_asked(same.fact)))
      return told(question, CantTell{}, same.correcting);
    const auto answer = answer_from_text(question, typed_, here_.setting());
    if (answer == std::variant<Value, std::string>{Value{same.reading}})
      return told(question, same.reading, same.correcting);
    return typed_answer(same, question, same.correcting);
  }

  Turn operator()(const ChoosingMore& same) const {
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

  Turn operator()(const ConfirmingEnd& same) const {
    const std::optional<bool> yes = yes_no_from_text(typed_);
    if (key_ == Key::enter || number_ == 2 || (yes && !*yes)) return {OnStep{}};
    if (number_ == 1 || yes) return {OnStep{}, Abandoned{""}};
    return only_to(same, 2);
  }

  Turn operator()(const TypingName&) const {
    if (key_ == Key::enter) return {OnStep{}};
    const std::string name(trimmed(typed_));
    return {OnStep{}, TakenOver{name}, say(kTakenOverBy, language_, name)};
  }

  Turn operator()(const Reading& same) const {
    if (key_ == Key::enter) return {OnStep{}};
    return {same, std::nullopt, say(kBackToStep, language_)};
  }

 private:
  Turn stay(const Both& sentence, const std::string& one = "") const {
    return {OnStep{}, std::nullopt, say(sentence, language_, one)};
  }
  Turn not_understood(const Dialog& same) const {
    return {same, std::nullopt, say(kNotUnderstood, language_, std::string(trimmed(typed_)))};
  }
  Turn only_to(const Dialog& same, std::size_t most) const {
    return {same, std::nullopt, say(kOnlyOneOf, language_, std::to_string(most))};
  }

  bool is_asked(FactId fact) const {
    return std::any_of(view_.ask.begin(), view_.ask.end(),
                       [&](const ShownQuestion& asked) { return asked.id == fact; });
  }

  // One line for one question: taken, refused with a sentence in the same dialog, or asked for a second time.
  Turn typed_answer(const Dialog& same, const ShownQuestion& question, bool correcting) const {
    const auto answer = answer_from_text(question, typed_, here_.setting());
    if (const auto* refusal = std::get_if<std::string>(&answer)) return {same, std::nullopt, *refusal};
    const Value& value = std::get<Value>(answer);
    if (is_typed_twice(value)) return {TypingAgain{question.id, std::get<Glucose>(value), correcting}};
    return told(question, value, correcting);
  }

  Turn told(const ShownQuestion& question, const Value& value, bool correcting) const {
    const std::string shown = text_from_answer(question, value, here_.setting());
    const Answers answers = {{question.id, value}};
    if (correcting) return {OnStep{}, Corrected{answers}, say(kCorrected, language_, shown)};
    if (view_.waiting && !is_asked(question.id) && !leads_on(answers)) {
      const bool first = phase_of(here_) == Phase::act;
      const std::string until = clock_text(view_.wait->until);
      return {OnStep{}, Answered{answers},
              first ? say(kKeptFirst, language_, shown) : say(kEarlyKept, language_, shown, until)};
    }
    return {OnStep{}, Answered{answers}, say(kYouSaid, language_, shown)};
  }

  // A reading that a watch takes up at once is not kept for later.
  bool leads_on(const Answers& answers) const {
    const Episode told = folded(here_.protocol, here_.child, here_.episode, Event{here_.now, Answered{answers}});
    return told.entered_by != here_.episode.entered_by;
  }

  Turn cant_tell() const {
    const Phase phase = phase_of(here_);
    if (phase == Phase::ask) return told(view_.ask.front(), CantTell{}, false);
    const ShownQuestion* reading = phase == Phase::act ? reading_asked_for(here_) : nullptr;
    return reading != nullptr ? told(*reading, CantTell{}, false) : stay(kNoQuestion);
  }

  Turn on_question() const {
    if (key_ == Key::enter) return stay(kNeedsAnswer);
    return typed_answer(OnStep{}, view_.ask.front(), false);
  }

  Turn on_actions() const {
    if (number_ && static_cast<std::size_t>(*number_) <= view_.actions.size()) {
      return about(view_.actions[static_cast<std::size_t>(*number_) - 1]);
    }
    if (const auto turn = early_answer(view_.actions.size())) return *turn;
    if (key_ != Key::enter) {
      const ShownQuestion* reading = reading_asked_for(here_);  // whoever measures as told types it at once
      return reading != nullptr ? typed_answer(OnStep{}, *reading, false) : early_reading();
    }
    if (!any_is_pending(here_)) return {after_deeds(std::nullopt)};
    Done all_else;
    bool all = true;
    for (const ShownAction& action : view_.actions) {
      if (!is_pending(here_, action)) continue;
      if (asks_how_much(here_, action)) {
        all = false;
      } else {
        all_else.deeds.push_back({action.id, Outcome::given, std::nullopt, std::nullopt});
      }
    }
    Turn turn{after_deeds(std::nullopt)};
    if (all) turn.what = AllDone{};
    if (!all && !all_else.deeds.empty()) turn.what = all_else;
    return turn;
  }

  // What is still to be said once "all done" is: how much of a dose went in, then how the call went.
  Dialog after_deeds(std::optional<ActionId> said) const {
    for (const ShownAction& action : view_.actions) {
      if (said != action.id && asks_how_much(here_, action)) return SayingHowMuch{action.id};
    }
    if (const ShownAction* call = pending_call(view_)) return ReportingCall{*call->contact};
    return OnStep{};
  }

  Turn outcome_chosen(const Dialog& same, const ShownAction& action, const std::vector<Outcome>& outcomes,
                      const Dialog& next) const {
    if (!number_ || static_cast<std::size_t>(*number_) > outcomes.size()) return only_to(same, outcomes.size());
    const Outcome outcome = outcomes[static_cast<std::size_t>(*number_) - 1];
    if (outcome == Outcome::part && action.kind == ActionKind::fluid) return {TypingDrink{action.id}};
    return {next, Done{{Deed{action.id, outcome, std::nullopt, std::nullopt}}},
            say(kMarked, language_, outcome_line(outcome, action.kind, language_))};
  }

  Turn drunk(ActionId action, const Quantity& drink) const {
    return {OnStep{}, Done{{Deed{action, Outcome::part, drink, std::nullopt}}},
            say(kDrunk, language_, text_from_quantity(drink))};
  }

  // Sips are told when they were drunk, whatever the step waits for.
  std::optional<Turn> typed_drink() const {
    const auto& actions = view_.actions;
    const auto fluid = std::find_if(actions.begin(), actions.end(),
                                    [](const ShownAction& action) { return action.kind == ActionKind::fluid; });
    if (fluid == actions.end()) return std::nullopt;
    const std::optional<Quantity> drink = drink_from_text(typed_, language_, false);
    return drink ? std::optional<Turn>(drunk(fluid->id, *drink)) : std::nullopt;
  }

  Turn on_wait() const {
    if (key_ == Key::enter) return stay(kNotYet, clock_text(view_.wait->until));
    if (const auto turn = early_answer(0)) return *turn;
    return early_reading();
  }

  // What ends the wait before its time, numbered behind `before` other lines.
  std::optional<Turn> early_answer(std::size_t before) const {
    const std::size_t place = number_ ? static_cast<std::size_t>(*number_) : 0;
    if (place <= before || place > before + view_.early.size()) return std::nullopt;
    const ShownEarly& early = view_.early[place - before - 1];
    return Turn{OnStep{}, Answered{{{early.fact, Chosen{early.option}}}}, say(kYouSaid, language_, early.text)};
  }

  // Before its time a reading is kept, unless a watch takes it up at once; the engine knows that it came early.
  Turn early_reading() const {
    const std::optional<FactId> fact = view_.waiting ? glucose_taken_early(here_) : std::nullopt;
    if (!fact) return not_understood(OnStep{});
    const bool has_digit = typed_.find_first_of("0123456789") != std::string::npos;
    const Turn turn = typed_answer(OnStep{}, question_of(here_, *fact), false);
    return has_digit || turn.what ? turn : not_understood(OnStep{});
  }

  Turn trouble() const {
    const auto& actions = view_.actions;
    const auto first = std::find_if(actions.begin(), actions.end(), can_go_wrong);
    if (first == actions.end()) return nothing_to_mark();
    return std::count_if(first, actions.end(), can_go_wrong) == 1 ? about(*first) : Turn{NamingAction{}};
  }

  Turn about(const ShownAction& action) const {
    if (action.contact) return {ReportingCall{*action.contact}};
    if (!can_go_wrong(action)) return nothing_to_mark();
    return {NamingOutcome{action.id}};
  }

  // What helps instead depends on what the screen is waiting for.
  Turn nothing_to_mark() const {
    switch (phase_of(here_)) {
      case Phase::ask:
        return stay(is_reading(view_.ask.front().kind) ? kNoMeterHere : kNothingWrongHere);
      case Phase::act:
        return stay(kNothingElseHere);
      case Phase::wait:
      case Phase::ended:
        break;
    }
    return stay(kNothingToMark);
  }

  const Situation& here_;
  const View& view_;
  Language language_;
  const std::string& typed_;
  std::optional<Key> key_;
  std::optional<int> number_;
};

}  // namespace

bool can_go_wrong(const ShownAction& action) { return is_call(action.kind) || outcomes_of(action.kind).size() > 1; }

Dialog still_meant(const Situation& situation, Dialog dialog) {
  const View& view = situation.view;
  const auto is_open = [&](Contact contact) {
    return std::any_of(view.open_calls.begin(), view.open_calls.end(),
                       [&](const ShownCall& call) { return call.contact == contact; });
  };
  bool gone = false;
  if (const auto* naming = std::get_if<NamingOutcome>(&dialog)) gone = action_of(view, naming->action) == nullptr;
  if (const auto* saying = std::get_if<SayingHowMuch>(&dialog)) gone = action_of(view, saying->action) == nullptr;
  if (const auto* drink = std::get_if<TypingDrink>(&dialog)) gone = action_of(view, drink->action) == nullptr;
  if (const auto* calling = std::get_if<ReportingCall>(&dialog)) gone = !is_open(calling->contact);
  // Whoever types what was said has somebody on the phone, whatever the clock says: those words stay wanted.
  return gone ? Dialog{OnStep{}} : dialog;
}

Turn turn_after(const Situation& situation, const Dialog& dialog, const std::string& typed) {
  if (key_from_text(typed) == Key::worse) return {NamingWorse{}};
  return std::visit(Meaning(situation, typed), dialog);
}

}  // namespace rushlight
