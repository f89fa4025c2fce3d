#include <algorithm>

#include "cli/meaning.hpp"
#include "cli/outcome_words.hpp"
#include "cli/readings.hpp"
#include "cli/typed_drink.hpp"
#include "measure/written.hpp"

namespace rushlight {

Turn Meaning::operator()(const OnStep&) const {
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
      return about_call();
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

bool Meaning::is_asked(FactId fact) const {
  return std::any_of(view_.ask.begin(), view_.ask.end(), [&](const ShownQuestion& asked) { return asked.id == fact; });
}

// One line for one question: taken, refused with a sentence in the same dialog, or asked for a second time.
Turn Meaning::typed_answer(const Dialog& same, const ShownQuestion& question, bool correcting) const {
  const auto answer = answer_from_text(question, typed_, here_.setting());
  if (const auto* refusal = std::get_if<std::string>(&answer)) return {same, std::nullopt, *refusal};
  const Value& value = std::get<Value>(answer);
  if (is_typed_twice(value, here_.child.unit)) return {TypingAgain{question.id, std::get<Glucose>(value), correcting}};
  return told(question, value, correcting);
}

Turn Meaning::told(const ShownQuestion& question, const Value& value, bool correcting) const {
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
bool Meaning::leads_on(const Answers& answers) const {
  const Episode told = folded(here_.protocol, here_.child, here_.episode, Event{here_.now, Answered{answers}});
  return told.entered_by != here_.episode.entered_by;
}

Turn Meaning::cant_tell() const {
  const Phase phase = phase_of(here_);
  if (phase == Phase::ask) return told(view_.ask.front(), CantTell{}, false);
  const ShownQuestion* reading = phase == Phase::act ? reading_asked_for(here_) : nullptr;
  return reading != nullptr ? told(*reading, CantTell{}, false) : stay(kNoQuestion);
}

Turn Meaning::on_question() const {
  if (key_ == Key::enter) return stay(kNeedsAnswer);
  return typed_answer(OnStep{}, view_.ask.front(), false);
}

Turn Meaning::on_actions() const {
  if (const auto turn = early_answer()) return *turn;
  const ShownQuestion* reading = key_ != Key::enter ? reading_asked_for(here_) : nullptr;
  if (reading != nullptr) return typed_answer(OnStep{}, *reading, false);  // whoever measures as told types it at once
  if (number_ && static_cast<std::size_t>(*number_) <= view_.actions.size()) {
    return about(view_.actions[static_cast<std::size_t>(*number_) - 1]);
  }
  if (number_ && *number_ < 10) return only_to(OnStep{}, view_.actions.size());  // a step that is not there, no reading
  if (key_ != Key::enter) return early_reading();
  if (!any_is_pending(here_)) return {after_deeds(std::nullopt)};
  Done all_else;
  bool all = dose_of_the_clinic(view_) == nullptr;
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
Dialog Meaning::after_deeds(std::optional<ActionId> said) const {
  for (const ShownAction& action : view_.actions) {
    if (said != action.id && asks_how_much(here_, action)) return SayingHowMuch{action.id};
  }
  if (const ShownAction* dose = dose_of_the_clinic(view_); dose != nullptr && said != dose->id)
    return AskingForDose{dose->id};
  if (const ShownAction* call = pending_call(view_)) return ReportingCall{*call->contact};
  return OnStep{};
}

// Sips are told when they were drunk, whatever the step waits for.
std::optional<Turn> Meaning::typed_drink() const {
  const auto& actions = view_.actions;
  const auto fluid = std::find_if(actions.begin(), actions.end(),
                                  [](const ShownAction& action) { return action.kind == ActionKind::fluid; });
  if (fluid == actions.end()) return std::nullopt;
  const std::optional<Quantity> drink = drink_from_text(typed_, language_, false);
  return drink ? std::optional<Turn>(drunk(fluid->id, *drink)) : std::nullopt;
}

Turn Meaning::on_wait() const {
  if (key_ == Key::enter) return stay(kNotYet, clock_text(view_.wait->until));
  if (const auto turn = early_answer()) return *turn;
  return early_reading();
}

// What ends the wait before its time, by its letter.
std::optional<Turn> Meaning::early_answer() const {
  const std::optional<std::size_t> place = meanwhile_place_from_text(typed_);
  if (!place || *place >= view_.early.size()) return std::nullopt;
  const ShownEarly& early = view_.early[*place];
  return Turn{OnStep{}, Answered{{{early.fact, Chosen{early.option}}}}, say(kYouSaid, language_, early.text)};
}

// Before its time a reading is kept, unless a watch takes it up at once; the engine knows that it came early.
Turn Meaning::early_reading() const {
  if (const auto turn = early_ketones()) return *turn;
  if (const auto turn = drink_or_glucose()) return *turn;
  return early_glucose();
}

// A number alone is a glucose: ketones of 4.2 and a glucose of 4.2 mmol/L are far apart, so ketones are named.
std::optional<Turn> Meaning::early_ketones() const {
  const std::optional<FactId> fact = view_.waiting ? reading_taken_early(here_, FactKind::ketones) : std::nullopt;
  const std::optional<std::string> number = fact ? ketones_named_in(typed_) : std::nullopt;
  if (!number) return std::nullopt;
  const ShownQuestion question = question_of(here_, *fact);
  const auto answer = answer_from_text(question, *number, here_.setting());
  if (const auto* refusal = std::get_if<std::string>(&answer)) return Turn{OnStep{}, std::nullopt, *refusal};
  return told(question, std::get<Value>(answer), false);
}

Turn Meaning::early_glucose() const {
  const std::optional<FactId> fact = view_.waiting ? reading_taken_early(here_, FactKind::glucose) : std::nullopt;
  if (!fact) return not_understood(OnStep{});
  const bool has_digit = typed_.find_first_of("0123456789") != std::string::npos;
  const Turn turn = typed_answer(OnStep{}, question_of(here_, *fact), false);
  return has_digit || turn.what ? turn : not_understood(OnStep{});
}

// "60" may be a drink or a glucose, and a glucose of 60 is a low: what it is, is asked.
std::optional<Turn> Meaning::drink_or_glucose() const {
  const auto& actions = view_.actions;
  const auto fluid = std::find_if(actions.begin(), actions.end(),
                                  [](const ShownAction& action) { return action.kind == ActionKind::fluid; });
  if (!view_.waiting || fluid == actions.end() || !drink_from_text(typed_, language_, true)) return std::nullopt;
  return Turn{DrinkOrGlucose{fluid->id, std::string(trimmed(typed_))}};
}

// The call that is open; else the dose that the clinic still has to say; else whoever answered last.
Turn Meaning::about_call() const {
  if (view_.call) return {ReportingCall{view_.call->contact}};
  if (const ShownAction* dose = dose_of_the_clinic(view_)) return {AskingForDose{dose->id}};
  const std::optional<Contact> reached = view_.ended ? std::nullopt : reached_last(here_);
  return reached ? Turn{HearingThem{*reached}} : stay(kNoOpenCall);
}

Turn Meaning::trouble() const {
  const auto& actions = view_.actions;
  const auto first = std::find_if(actions.begin(), actions.end(), can_go_wrong);
  if (first == actions.end()) return nothing_to_mark();
  return std::count_if(first, actions.end(), can_go_wrong) == 1 ? about(*first) : Turn{NamingAction{}};
}

Turn Meaning::about(const ShownAction& action) const {
  if (action.contact) return {ReportingCall{*action.contact}};
  if (!can_go_wrong(action)) return nothing_to_mark();
  if (waits_for_the_clinic(action)) return {AskingForDose{action.id}};
  return {NamingOutcome{action.id}};
}

// What helps instead depends on what the screen is waiting for.
Turn Meaning::nothing_to_mark() const {
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

}  // namespace rushlight
