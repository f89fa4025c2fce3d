#pragma once

#include "cli/dialog.hpp"
#include "cli/keys.hpp"
#include "cli/say.hpp"

namespace rushlight {

/// One typed line against one dialog. For dialog.cpp only: everyone else asks turn_after.
class Meaning {
 public:
  Meaning(const Situation& situation, const std::string& typed);

  Turn operator()(const OnStep&) const;
  Turn operator()(const NamingWorse& same) const;
  Turn operator()(const NamingAction& same) const;
  Turn operator()(const NamingOutcome& same) const;
  Turn operator()(const SayingHowMuch& same) const;
  Turn operator()(const AskingForDose& same) const;
  Turn operator()(const TypingUnits& same) const;
  Turn operator()(const TypingDrink& same) const;
  Turn operator()(const DrinkOrGlucose& same) const;
  Turn operator()(const ReportingCall& same) const;
  Turn operator()(const TypingWhatTheySaid& same) const;
  Turn operator()(const HearingThem& same) const;
  Turn operator()(const ChoosingCorrection& same) const;
  Turn operator()(const Correcting& same) const;
  Turn operator()(const TypingAgain& same) const;
  Turn operator()(const ChoosingMore& same) const;
  Turn operator()(const ConfirmingEnd& same) const;
  Turn operator()(const TypingName&) const;
  Turn operator()(const Reading& same) const;

 private:
  Turn stay(const Both& sentence, const std::string& one = "") const;
  Turn not_understood(const Dialog& same) const;
  Turn only_to(const Dialog& same, std::size_t most) const;
  bool is_asked(FactId fact) const;
  Turn typed_answer(const Dialog& same, const ShownQuestion& question, bool correcting) const;
  Turn told(const ShownQuestion& question, const Value& value, bool correcting) const;
  bool leads_on(const Answers& answers) const;
  Turn cant_tell() const;
  Turn on_question() const;
  Turn on_actions() const;
  Dialog after_deeds(std::optional<ActionId> said) const;
  Turn outcome_chosen(const Dialog& same, const ShownAction& action, const std::vector<Outcome>& outcomes,
                      const Dialog& next) const;
  Turn drunk(ActionId action, const Quantity& drink) const;
  std::optional<Turn> typed_drink() const;
  Turn on_wait() const;
  std::optional<Turn> early_answer() const;
  std::optional<Turn> drink_or_glucose() const;
  Turn early_reading() const;
  std::optional<Turn> early_ketones() const;
  Turn early_glucose() const;
  Turn trouble() const;
  Turn about_call() const;
  Dialog after_answer(Contact contact) const;
  Turn about(const ShownAction& action) const;
  Turn nothing_to_mark() const;

  const Situation& here_;
  const View& view_;
  Language language_;
  const std::string& typed_;
  std::optional<Key> key_;
  std::optional<int> number_;
};

}  // namespace rushlight
