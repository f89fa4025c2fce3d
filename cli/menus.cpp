#include "cli/menus.hpp"

#include <algorithm>

#include "cli/outcome_words.hpp"
#include "cli/plain_text.hpp"
#include "cli/readings.hpp"
#include "cli/say.hpp"
#include "episode/phrases.hpp"
#include "episode/words.hpp"
#include "measure/written.hpp"

namespace rushlight {
namespace {

Block chosen_by_number(std::size_t number, const std::string& text) {
  const std::string typed = std::to_string(number);
  return {typed + ". ", text, false, true, typed};
}

/// Fills the screen of one dialog. The headline of the step gives way to the menu's own.
class Menu {
 public:
  Menu(const Situation& situation, Screen& screen)
      : here_(situation), language_(situation.language()), screen_(screen) {
    screen_.tell = say(kTellChoice, language_) + " " + say(kBackToStep, language_);
    screen_.keys = screen_.few_keys = say(kWorseKey, language_);
    if (time_is_up(situation)) add("", phrase(Phrase::time_is_up, language_));
  }

  void operator()(const OnStep&) {}
  void operator()(const NamingWorse&) {
    screen_.headline = say(kWorseTitle, language_);
    for (const auto& [sign, text] : signs_of(here_.protocol, here_.child, here_.episode)) item(text);
    if (!lists_any_worry(here_.protocol)) item(say(kSomethingElse, language_));
    screen_.keys = screen_.few_keys = "";
  }
  void operator()(const NamingAction&) {
    screen_.headline = say(kWhichTitle, language_);
    const auto& actions = here_.view.actions;
    for (std::size_t at = 0; at < actions.size(); ++at) {
      if (can_go_wrong(actions[at])) item_at(at + 1, actions[at].text);
    }
  }
  void operator()(const NamingOutcome& naming) {
    screen_.headline = say(kOutcomeTitle, language_);
    for (const ShownAction& action : here_.view.actions) {
      if (action.id != naming.action) continue;
      show_action(action);
      for (const Outcome outcome : outcomes_of(action.kind)) item(outcome_line(outcome, action.kind, language_));
    }
  }
  void operator()(const SayingHowMuch& saying) {
    screen_.headline = say(kHowMuchTitle, language_);
    for (const ShownAction& action : here_.view.actions) {
      if (action.id != saying.action) continue;
      show_action(action);
      const bool counted = action.dose && action.dose->amount && action.dose->amount->unit != Unit::microgram;
      for (const Outcome outcome : amounts_of(action.kind)) {
        const bool all = outcome == Outcome::given && counted;
        item(all ? say(kAllOf, language_, said(*action.dose->amount, language_))
                 : outcome_line(outcome, action.kind, language_));
      }
    }
  }
  void operator()(const AskingForDose& asking) {
    screen_.headline = say(kDoseAsked, language_);
    for (const ShownAction& action : here_.view.actions) {
      if (action.id == asking.action) show_action(action);
    }
    item(say(kNoDose, language_));
    item(say(kDoseSaid, language_));
  }
  void operator()(const TypingUnits& typing) {
    screen_.headline = say(kUnitsTitle, language_);
    for (const ShownAction& action : here_.view.actions) {
      if (action.id == typing.action) show_action(action);
    }
    screen_.tell = say(kUnitsLike, language_) + ". " + say(kUnitsUnknown, language_);
  }
  void operator()(const DrinkOrGlucose& either) {
    screen_.headline = say(kDrinkOrGlucose, language_, either.typed);
    item(say(kSoMuchDrunk, language_, either.typed));
    item(say(kSoMuchGlucose, language_, either.typed));
  }
  void operator()(const TypingDrink& drink) {
    screen_.headline = say(kDrinkTitle, language_);
    for (const ShownAction& action : here_.view.actions) {
      if (action.id == drink.action) add("", action.text);
    }
    screen_.tell = say(kDrinkLike, language_) + " " + say(kBackToStep, language_);
  }
  void operator()(const ReportingCall& reporting) {
    screen_.headline = say(kCallTitle, language_);
    show_card(reporting.contact);
    item(say(kReached, language_));
    item(say(kNoAnswer, language_));
    item(say(kTold, language_));
    if (stands_in_for_the_clinic(here_, reporting.contact)) item(say(kClinicAfterAll, language_));
    if (told_to_come(here_, reporting.contact)) item(say(kTheySayCome, language_));
    screen_.tell = say(kTellChoice, language_) + " " + say(kNotCalledYet, language_);
  }
  void operator()(const HearingThem& hearing) {
    screen_.headline = say(kWhatDidTheySay, language_);
    add("", sentence_case(who(hearing.contact, language_)) + ": " +
                number_of(here_.child.contacts, hearing.contact, language_));
    item(say(kTold, language_));
    if (told_to_come(here_, hearing.contact)) item(say(kTheySayCome, language_));
  }
  void operator()(const TypingWhatTheySaid&) {
    screen_.headline = say(kTypeWhatTheySaid, language_);
    screen_.tell = "";
  }
  void operator()(const ChoosingCorrection&) {
    const std::vector<PastAnswer> answers = past_answers(here_);
    screen_.headline = say(answers.empty() ? kNoAnswersYet : kBackTitle, language_);
    for (std::size_t at = 0; at < std::min(answers.size(), kMostShownAnswers); ++at) {
      item(answers[at].question.text + " " + said_then(answers[at]));
    }
    if (!here_.view.given.empty()) add("", say(kGivenStays, language_));
  }
  void operator()(const Correcting& correcting) {
    screen_.headline = say(kAnswerAgain, language_);
    const ShownQuestion question = question_of(here_, correcting.fact);
    show_asked(screen_, question, language_);
    screen_.tell = how_to_answer(question, language_) + " " + say(kBackToStep, language_);
  }
  void operator()(const TypingAgain& again) {
    const std::string shown = text_from_glucose(again.reading);
    if (is_very_high(again.reading)) {
      screen_.headline = say(kTypeAgainTitle, language_, shown);
      add("", say(kTypeAgain, language_, std::string(written_from_text(shown).number)));
    } else {
      const GlucoseUnit unit = again.reading.unit();
      const Glucose usual = Glucose::reading(other_value(*again.reading.number(), unit), here_.child.unit);
      screen_.headline = say(kOtherUnitTitle, language_, shown, text_from_glucose(usual));
      add("", say(kOtherUnitAgain, language_, shown, std::string(ucum(unit_of(unit)))));
    }
    screen_.tell = say(kBackToStep, language_);
  }
  void operator()(const ChoosingMore&) {
    screen_.headline = say(kMoreTitle, language_);
    for (const Both* line :
         {&kMoreCautionsItem, &kMoreContacts, &kMoreGiven, &kMoreTakeOver, &kMoreLanguage, &kMoreStop, &kMoreClose}) {
      item(say(*line, language_));
    }
    screen_.keys = screen_.few_keys = say(kAllKeys, language_);
  }
  void operator()(const ConfirmingEnd&) {
    screen_.headline = say(kCloseTitle, language_, here_.view.child);
    item(say(kCloseYes, language_));
    item(say(kCloseNo, language_));
  }
  void operator()(const TypingName&) {
    screen_.headline = say(kNameTitle, language_);
    screen_.tell = say(kBackToStep, language_);
  }
  void operator()(const Reading& reading) {
    screen_.headline = reading.title;
    for (const std::string& line : reading.lines) add("- ", line);
    if (!reading.for_the_clinic.empty()) add("", say(kForTheClinic, language_));
    for (const std::string& line : reading.for_the_clinic) add("- ", line);
    screen_.tell = say(kBackToStep, language_);
  }

 private:
  // What the nurse asks, in that order, below the number. Whoever calls help says first where.
  void show_card(Contact contact) {
    const std::string number = number_of(here_.child.contacts, contact, language_);
    add("", say(kSayThis, language_, sentence_case(who(contact, language_)), number));
    const std::string& address = here_.child.contacts.address;
    bool says_where = contact != Contact::emergency || address.empty();
    const std::string answers = phrase(Phrase::phone_answers, language_);
    for (const std::string& line : here_.view.say) {
      screen_.body.push_back({"- ", line, line.rfind(answers, 0) == 0});  // the answers give way to how the call went
      if (!says_where && line.find(address) == std::string::npos) add("- ", say(kAddress, language_, address));
      says_where = true;
    }
  }
  void add(const std::string& lead, const std::string& text) { screen_.body.push_back({lead, text}); }
  /// An action that asks how it went. What goes through the skin is named: "draw up to the mark 6" could be either
  /// medicine.
  void show_action(const ShownAction& action) {
    const std::optional<DoseId> dose = here_.protocol[action.id].dose;
    const bool skin = action.kind == ActionKind::glucagon || action.kind == ActionKind::insulin;
    if (!skin || !dose) return add("", action.text);
    const std::string label = plain_words(here_.protocol[*dose].label, language_);
    const bool counted = action.dose && action.dose->amount;
    if (!counted) return add("", label);  // its text says why there is no amount: nothing that could be given
    add("", label + ": " + said(*action.dose->amount, language_));
    add("", action.text);
  }
  // "3 h ago" is no longer so an hour later; the clock time stays.
  std::string said_then(const PastAnswer& answer) const {
    const auto* ago = std::get_if<Ago>(&answer.value);
    if (ago == nullptr) return text_from_answer(answer.question, answer.value, here_.setting());
    return say(kAtClock, language_, clock_text(shown_at_offset(answer.said.utc - ago->time, answer.said.offset)));
  }
  void item(const std::string& text) { screen_.body.push_back(chosen_by_number(++items_, text)); }
  void item_at(std::size_t number, const std::string& text) {
    screen_.body.push_back(chosen_by_number(number, text));
    screen_.body.back().together = false;
  }

  const Situation& here_;
  Language language_;
  Screen& screen_;
  std::size_t items_ = 0;
};

}  // namespace

void show_menu(const Situation& situation, const Dialog& dialog, Screen& screen) {
  std::visit(Menu(situation, screen), dialog);
}

void show_asked(Screen& screen, const ShownQuestion& question, Language language) {
  screen.body.push_back({"", question.text, false, true});
  if (!question.help.empty()) screen.body.push_back({"", question.help, true});
  for (std::size_t at = 0; at < question.choices.size(); ++at) {
    screen.body.push_back(chosen_by_number(at + 1, question.choices[at].text));
  }
  const std::string lead = say(kCantTellLead, language);
  screen.body.push_back({lead, say(kCantTellChoice, language), false, true, lead.substr(0, 1)});
}

}  // namespace rushlight
