#include "cli/dialog.hpp"

#include <algorithm>

#include "cli/keys.hpp"
#include "cli/readings.hpp"
#include "cli/say.hpp"
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
        key_(key_from_text(typed, language_)),
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
        return phase_of(here_) == Phase::ask ? answered(CantTell{}) : stay(kNoQuestion);
      case Key::enter:
        break;
    }
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
    const std::vector<Outcome> outcomes = outcomes_of(action->kind);
    if (!number_ || static_cast<std::size_t>(*number_) > outcomes.size()) return only_to(same, outcomes.size());
    const Outcome outcome = outcomes[static_cast<std::size_t>(*number_) - 1];
    return {OnStep{}, Done{{Deed{same.action, outcome, std::nullopt, std::nullopt}}},
            say(kMarked, language_, outcome_line(outcome, action->kind, language_))};
  }

  Turn operator()(const ReportingCall& same) const {
    if (key_ == Key::enter) return {OnStep{}};
    if (number_ == 1)
      return {OnStep{}, Called{same.contact, Outcome::reached, ""}, say(kMarked, language_, say(kReached, language_))};
    if (number_ == 2)
      return {OnStep{}, Called{same.contact, Outcome::no_answer, ""},
              say(kMarked, language_, say(kNoAnswer, language_))};
    if (number_ == 3) return {TypingWhatTheySaid{same.contact}};
    return only_to(same, 3);
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
    std::variant<Value, std::string> answer = Value{CantTell{}};
    if (key_ != Key::cant_tell) answer = answer_from_text(question, typed_, here_.setting());
    if (const auto* refusal = std::get_if<std::string>(&answer)) return {same, std::nullopt, *refusal};
    const Value& value = std::get<Value>(answer);
    return {OnStep{}, Corrected{{{same.fact, value}}},
            say(kCorrected, language_, text_from_answer(question, value, here_.setting()))};
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
  Turn stay(const Both& sentence) const { return {OnStep{}, std::nullopt, say(sentence, language_)}; }
  Turn not_understood(const Dialog& same) const {
    return {same, std::nullopt, say(kNotUnderstood, language_, std::string(trimmed(typed_)))};
  }
  Turn only_to(const Dialog& same, std::size_t most) const {
    return {same, std::nullopt, say(kOnlyOneOf, language_, std::to_string(most))};
  }

  Turn answered(const Value& value) const {
    const ShownQuestion& question = view_.ask.front();
    return {OnStep{}, Answered{{{question.id, value}}},
            say(kYouSaid, language_, text_from_answer(question, value, here_.setting()))};
  }

  Turn on_question() const {
    if (key_ == Key::enter) return stay(kNeedsAnswer);
    const auto answer = answer_from_text(view_.ask.front(), typed_, here_.setting());
    if (const auto* refusal = std::get_if<std::string>(&answer)) return {OnStep{}, std::nullopt, *refusal};
    return answered(std::get<Value>(answer));
  }

  Turn on_actions() const {
    if (number_ && static_cast<std::size_t>(*number_) <= view_.actions.size()) {
      return about(view_.actions[static_cast<std::size_t>(*number_) - 1]);
    }
    if (key_ != Key::enter) return reading_in_place_of_done();
    Dialog next = OnStep{};
    if (const ShownAction* call = pending_call(view_)) next = ReportingCall{*contact_awaited(here_, *call)};
    const bool left = std::any_of(view_.actions.begin(), view_.actions.end(), is_pending);
    return left ? Turn{next, AllDone{}} : Turn{next};
  }

  // Whoever measures as told types the reading at once.
  Turn reading_in_place_of_done() const {
    const ShownQuestion* question = reading_asked_for(here_);
    if (question == nullptr) return not_understood(OnStep{});
    const auto answer = answer_from_text(*question, typed_, here_.setting());
    if (const auto* refusal = std::get_if<std::string>(&answer)) return {OnStep{}, std::nullopt, *refusal};
    return answered(std::get<Value>(answer));
  }

  // A reading during the wait is kept; the engine knows that it came early.
  Turn on_wait() const {
    if (key_ == Key::enter) return stay_until();
    for (const Ask& ask : here_.protocol[here_.episode.step].asks) {
      if (here_.protocol[ask.fact].kind != FactKind::glucose) continue;
      const auto answer = answer_from_text(question_of(here_, ask.fact), typed_, here_.setting());
      if (const auto* value = std::get_if<Value>(&answer)) {
        const std::string shown = text_from_answer(question_of(here_, ask.fact), *value, here_.setting());
        return {OnStep{}, Answered{{{ask.fact, *value}}},
                say(kEarlyKept, language_, shown, clock_text(view_.wait->until))};
      }
      const bool has_digit = typed_.find_first_of("0123456789") != std::string::npos;
      if (has_digit) return {OnStep{}, std::nullopt, std::get<std::string>(answer)};
    }
    return not_understood(OnStep{});
  }
  Turn stay_until() const { return {OnStep{}, std::nullopt, say(kNotYet, language_, clock_text(view_.wait->until))}; }

  Turn trouble() const {
    if (view_.actions.empty()) return stay(kNothingElseHere);
    return view_.actions.size() == 1 ? about(view_.actions.front()) : Turn{NamingAction{}};
  }

  Turn about(const ShownAction& action) const {
    if (const std::optional<Contact> contact = contact_awaited(here_, action)) return {ReportingCall{*contact}};
    if (outcomes_of(action.kind).size() < 2) return stay(kNothingElseHere);
    return {NamingOutcome{action.id}};
  }

  const Situation& here_;
  const View& view_;
  Language language_;
  const std::string& typed_;
  std::optional<Key> key_;
  std::optional<int> number_;
};

}  // namespace

Turn turn_after(const Situation& situation, const Dialog& dialog, const std::string& typed) {
  if (key_from_text(typed, situation.language()) == Key::worse) return {NamingWorse{}};
  return std::visit(Meaning(situation, typed), dialog);
}

std::vector<Outcome> outcomes_of(ActionKind kind) {
  std::vector<Outcome> outcomes = outcomes_to_cover(kind);
  outcomes.push_back(Outcome::given);
  return outcomes;
}

std::string outcome_mark(Outcome outcome, Language language) {
  const bool es = language == Language::es;
  switch (outcome) {
    case Outcome::given:
      return es ? "hecho" : "done";
    case Outcome::part:
      return es ? "solo una parte" : "only part";
    case Outcome::refused:
      return es ? "no se dio" : "not taken";
    case Outcome::vomited:
      return es ? "vomitado" : "vomited";
    case Outcome::none_here:
      return es ? "no hay aquí" : "none here";
    case Outcome::wrong:
      return es ? "salió mal" : "went wrong";
    case Outcome::reached:
      return es ? "contestaron" : "answered";
    case Outcome::no_answer:
      return es ? "nadie contestó" : "no answer";
    case Outcome::told:
      return es ? "le dijeron qué hacer" : "told what to do";
  }
  return "";
}

std::string outcome_line(Outcome outcome, ActionKind kind, Language language) {
  const bool es = language == Language::es;
  const bool needle = kind == ActionKind::glucagon || kind == ActionKind::insulin;
  switch (outcome) {
    case Outcome::given:
      return es ? "Está hecho, todo" : "It is done, all of it";
    case Outcome::part:
      return es ? "Solo entró una parte" : "Only part of it went in";
    case Outcome::refused:
      if (needle) return es ? "No se pudo dar" : "It could not be given";
      return es ? "No lo quiere, o lo escupe" : "Refuses it, or spits it out";
    case Outcome::vomited:
      return es ? "Lo vomitó" : "Vomited it";
    case Outcome::none_here:
      return es ? "Aquí no hay" : "There is none here";
    case Outcome::wrong:
      return es ? "Fue otra cosa u otra cantidad" : "It was the wrong thing or amount";
    case Outcome::reached:
    case Outcome::no_answer:
    case Outcome::told:
      break;
  }
  return outcome_mark(outcome, language);
}

}  // namespace rushlight
