#include "cli/screen_text.hpp"

#include <algorithm>

#include "cli/done_record.hpp"
#include "cli/keys.hpp"
#include "cli/menus.hpp"
#include "cli/outcome_words.hpp"
#include "cli/plain_text.hpp"
#include "cli/say.hpp"
#include "episode/drinks.hpp"
#include "episode/phrases.hpp"
#include "episode/telephone.hpp"
#include "episode/words.hpp"

namespace rushlight {
namespace {

constexpr std::size_t kGivenLinesShown = 2;  // the latest; "more" has them all

std::string two_digits(std::int64_t number) { return (number < 10 ? "0" : "") + std::to_string(number); }

constexpr std::size_t kFewWords = 12;  // bytes: "Give ", "Ahora dé "

/// "7 g: " when the text of an action does not have its amount among its first words: the number comes first. A drink
/// goes down in sips: the whole of it in front of them would be read as one gulp; and "give what is missing, 7 g in
/// all" is not "7 g". Micrograms go nowhere near the marks of an insulin syringe: "100" is a mark on it.
std::string amount_in_front(const ShownAction& action, Language language) {
  if (!action.dose || !action.dose->amount) return "";
  const std::string amount = said(*action.dose->amount, language);
  if (action.dose->amount->unit == Unit::microgram) return "";
  const bool mouth = action.kind == ActionKind::by_mouth || action.kind == ActionKind::fluid;
  if (mouth && action.text.find(amount) != std::string::npos) return "";
  return action.text.find(amount) <= kFewWords ? "" : amount + ": ";
}

/// The step's own screen.
class StepScreen {
 public:
  StepScreen(const Situation& situation, Screen& screen)
      : here_(situation), view_(situation.view), language_(situation.language()), screen_(screen) {}

  void fill() {
    show_step_line();
    if (!here_.saving) later(say(kNotSaved, language_));
    show_calls();
    if (view_.call && phase_of(here_) != Phase::wait) show_given(false);
    if (time_is_up(here_) && line_now() != phrase(Phrase::time_is_up, language_)) add("", phrase(Phrase::time_is_up, language_));
    switch (phase_of(here_)) {
      case Phase::ask:
        show_question();
        break;
      case Phase::act:
        show_actions(true);
        show_early();
        break;
      case Phase::wait:
        show_wait();
        break;
      case Phase::ended:
        show_actions(false);
        break;
    }
    const bool not_started = view_.waiting && view_.wait && !view_.wait->started;
    if (not_started && phase_of(here_) == Phase::act)
      add("", say(dose_of_the_clinic(view_) != nullptr ? kRingsBy : kStartsWhenDone, language_,
                  clock_text(view_.wait->until)));
    if (const auto advice = advice_that_holds(here_))
      add("", say(kTheySaid, language_, clock_text(advice->at), advice->text));
    if (is_being_taken_over(here_)) show_so_far();
    show_reminders();
    show_cautions();
    screen_.tell = tell();
    const std::string cant_tell = says_cant_tell() ? say(kKeyCantTell, language_) : "";
    screen_.keys = say(kKeys, language_, cant_tell, keys_for_now());
    screen_.few_keys = say(kFewKeys, language_, cant_tell);
  }

 private:
  void add(const std::string& lead, const std::string& text) { screen_.body.push_back({lead, text}); }
  void later(const std::string& text) { screen_.body.push_back({"", text, true}); }
  void blank() { screen_.body.push_back({}); }

  // Under a graver call the step keeps its own line; what else was said stands right below.
  void show_step_line() {
    (view_.meanwhile.empty() ? screen_.headline : meanwhile_) = line_now();
    if (!meanwhile_.empty()) add("", meanwhile_);
    for (const std::string& also : view_.also) add("", also);
  }

  // The gravest alone: of two numbers a tired reader calls the wrong one.
  void show_calls() {
    if (!view_.call) return;
    const ShownCall& call = *view_.call;
    const bool on_list = std::any_of(view_.actions.begin(), view_.actions.end(),
                                     [&](const ShownAction& action) { return action.contact == call.contact; });
    if (on_list && phase_of(here_) == Phase::act) return;
    if (view_.meanwhile.empty()) add("", call.text);
    if (call.answer_by)
      later(say(call.contact == Contact::emergency ? kCallAgain : kMovesOn, language_, clock_text(*call.answer_by)));
  }

  void show_actions(bool numbered) {
    for (std::size_t at = 0; at < view_.actions.size(); ++at) {
      const ShownAction& action = view_.actions[at];
      const std::string lead = numbered ? std::to_string(at + 1) + ". " : "- ";
      const std::string mark = numbered && action.outcome ? "(" + outcome_mark(*action.outcome, language_) + ") " : "";
      const bool has_number = numbered && can_go_wrong(action) && reading_asked_for(here_) == nullptr;
      screen_.body.push_back({lead, mark + amount_in_front(action, language_) + action.text, false, false,
                              has_number ? std::to_string(at + 1) : "", action.kind});
    }
  }

  void show_question() {
    const ShownQuestion& question = view_.ask.front();
    for (const ShownAction& action : view_.actions) {
      if (!here_.episode.opening.empty() || !is_pending(here_, action)) continue;
      const bool beside = is_said_beside_a_question(here_, action);
      if (!beside) add("", say(kStillToDo, language_, action.text));
      if (beside && !time_is_up(here_)) screen_.body.push_back({"- ", action.text, false, false, "", action.kind});
    }
    show_asked(screen_, question, language_);
  }

  // Once it is given, "give it now" must not stand on the screen: a tired reader would give it twice.
  bool has_given() const {
    return std::any_of(view_.actions.begin(), view_.actions.end(), [](const ShownAction& action) {
      const bool taken = action.outcome == Outcome::given || action.outcome == Outcome::part;
      return action.dose && taken && action.kind != ActionKind::fluid;  // sips go on after the first of them
    });
  }
  // Nor "call now" once somebody has answered.
  const ShownAction* answered_call() const {
    for (const ShownAction& action : view_.actions) {
      const bool answered = action.outcome == Outcome::reached || action.outcome == Outcome::told;
      if (is_call(action.kind) && answered) return &action;
    }
    return nullptr;
  }
  const std::string& step_line() const { return view_.meanwhile.empty() ? view_.headline : view_.meanwhile; }

  // The step's line as it is now: a line that orders what is done already, or names a time that has come, would be read
  // as an order. "The dispatcher leads" orders neither: it stays.
  std::string line_now() const {
    const Phase phase = phase_of(here_);
    if (emergency_goes_on()) return step_line();
    const bool emergency = here_.protocol[here_.episode.step].urgency == Urgency::emergency;
    const bool orders_help =
        step_line().find(number_of(here_.child.contacts, Contact::emergency, language_)) != std::string::npos;
    const bool called = answered_call() != nullptr && (orders_help || !emergency) && phase != Phase::act;
    if (time_is_up(here_) && (!emergency || has_given())) return phrase(Phrase::time_is_up, language_);
    if (phase == Phase::wait && (has_given() || called))
      return say(view_.urgency == Urgency::emergency ? kWatchUntil : kWaitUntil, language_,
                 clock_text(view_.wait->until), view_.child);
    if (answered_call() != nullptr && (orders_help || (called && phase == Phase::ask))) {
      const bool help = answered_call()->kind == ActionKind::call_emergency;
      return say(help ? kHelpAnswered : kClinicAnswered, language_);
    }
    if (phase == Phase::ask && !emergency && has_measured()) return say(kMeasured, language_, view_.child);
    return step_line();
  }

  // Where an emergency is still to be called, what it says first stays, unless that was to give what is given now.
  bool emergency_goes_on() const {
    const bool to_call = view_.call && view_.call->contact == Contact::emergency;
    const Template& words = here_.protocol[here_.episode.step].headline.in(language_);
    return to_call && std::none_of(words.begin(), words.end(),
                                   [](const Piece& piece) { return std::holds_alternative<DoseId>(piece); });
  }

  // "Measure now" is over once the readings are told and the rest of the questions follow.
  bool has_measured() const {
    const bool measures = std::any_of(view_.actions.begin(), view_.actions.end(),
                                      [](const ShownAction& action) { return action.kind == ActionKind::measure; });
    return measures && readings_are_told(here_) && pending_call(view_) == nullptr;
  }

  // Whoever takes over asks for the danger signs first; what is known stands below.
  void show_so_far() {
    later(say(kSoFar, language_));
    const Instant instant = here_.episode.clock.last_wall + here_.episode.clock.lost;
    const Scene scene = scene_at(here_.protocol, here_.child, here_.episode, instant);
    const std::vector<std::string> lines = for_the_telephone(scene, language_);
    for (const std::string& line : lines) screen_.body.push_back({"- ", line, true});
  }

  void show_given(bool only_here) {
    std::size_t shown = 0;
    for (auto given = view_.given.rbegin(); given != view_.given.rend() && shown < kGivenLinesShown; ++given) {
      const bool in_this_step = !only_here || given->when.utc >= wall(here_.episode.clock, here_.episode.entered).utc;
      const bool taken = given->outcome == Outcome::given || given->outcome == Outcome::part;
      const std::optional<ActionId> id = here_.protocol.action_named(given->name);
      if (!in_this_step || !taken || !id || !here_.protocol[*id].dose) continue;
      if (here_.protocol[*id].kind == ActionKind::fluid) continue;  // the sum of the drinks has a line of its own
      const std::string label = plain_words(here_.protocol[*here_.protocol[*id].dose].label, language_);
      // A dose that somebody else said has no amount here, only its name.
      const bool all = given->outcome == Outcome::given;
      const bool counted = given->text.compare(0, label.size(), label) == 0;
      const std::string line =
          say(all ? kGiven : kPartGiven, language_, clock_text(given->when), all && counted ? given->text : label);
      screen_.body.push_back({"", line, phase_of(here_) != Phase::wait});
      ++shown;
    }
  }

  void show_wait() {
    show_given(!view_.call);
    for (const ShownAction& action : view_.actions) {
      const bool goes_on =
          action.kind == ActionKind::watch || action.kind == ActionKind::position || action.kind == ActionKind::fluid;
      if (goes_on) screen_.body.push_back({"- ", action.text, false, false, "", action.kind});
    }
    if (dose_of_the_clinic(view_) != nullptr) add("", say(kDoseStillOpen, language_));
    show_early();
    show_drinks();
    if (reading_taken_early(here_, FactKind::ketones)) add("", say(kKetonesMeanwhile, language_));
    blank();
    add("", say(kTellWait, language_));
  }

  void show_drinks() {
    const bool drinks_here = std::any_of(view_.actions.begin(), view_.actions.end(),
                                         [](const ShownAction& action) { return action.kind == ActionKind::fluid; });
    if (!view_.drinks || !drinks_here) return;
    // The goal of the whole wait: one that grew by the minute would redraw the screen under a half-typed amount.
    const Instant until = view_.wait->until.utc + here_.episode.clock.lost;
    const Scene scene = scene_at(here_.protocol, here_.child, here_.episode, until);
    const std::optional<ShownDrinks> then = drinks_of(scene);
    if (!then) return;
    const std::string drunk = rushlight::said(view_.drinks->drunk, language_);
    add("", say(kDrunkSoFar, language_, clock_text(view_.drinks->since), drunk) + " " +
                say(kDrinkGoal, language_, clock_text(view_.wait->until), rushlight::said(then->goal, language_)));
    add("", say(kDrinkMore, language_));
  }

  // What ends the wait before its time, each with a letter: a number beside it is a step or a reading.
  void show_early() {
    if (view_.early.empty()) return;
    blank();
    screen_.body.push_back({"", say(kBeforeThen, language_), false, true});
    for (std::size_t at = 0; at < std::min(view_.early.size(), kMeanwhileLetters.size()); ++at) {
      const std::string letter(1, kMeanwhileLetters[at]);
      screen_.body.push_back({letter + ". ", view_.early[at].text, false, true, letter});
    }
  }

  void show_reminders() {
    for (const ShownTimer& timer : view_.timers) {
      if (timer.controls) continue;
      const bool due = timer.until.utc <= here_.now.utc;
      add("", due ? say(kReminderDue, language_, timer.label)
                  : say(kReminder, language_, clock_text(timer.until), timer.label));
    }
  }

  // In full on the first screen. Later what is particular to this step stays, and the rest is one key away.
  void show_cautions() {
    blank();
    const std::string& short_form = view_.approval.text;
    if (here_.first) {
      if (here_.child.contacts.emergency.empty()) later(say(kNoEmergencyNumber, language_));
      for (const std::string& caution : view_.caution) later(caution);
      later(say(kAlarmTried, language_));
      return;
    }
    const std::size_t standing = here_.protocol.cautions.size() + 2;  // the clinic's own and the two of every face
    const std::size_t particular = view_.caution.size() > standing ? view_.caution.size() - standing : 0;
    for (std::size_t at = 0; at < particular; ++at) later(view_.caution[at]);
    later(short_form + " " + say(kMoreCautions, language_));
  }

  std::string tell() const {
    switch (phase_of(here_)) {
      case Phase::ask:
        return how_to_answer(view_.ask.front(), language_);
      case Phase::act:
        if (reading_asked_for(here_) != nullptr) {
          const std::string reading = say(kTellDoneOrReading, language_, "x");
          return pending_call(view_) != nullptr ? reading + " " + say(kTellCalled, language_) : reading;
        }
        if (any_is_pending(here_) || dose_of_the_clinic(view_) != nullptr) return tell_done();
        return pending_call(view_) != nullptr ? say(kTellCalled, language_) : "";
      case Phase::wait:
        return "";
      case Phase::ended:
        return say(kTellEnded, language_);
    }
    return "";
  }

  // What Enter will put on record stands in front of the key.
  std::string tell_done() const {
    const DoneRecord record = done_record(here_);
    switch (record.kind) {
      case DoneRecord::Kind::asks_how_much:
        return say(kTellHowMuch, language_);
      case DoneRecord::Kind::asks_the_clinic:
        return say(kTellDoseAsked, language_);
      case DoneRecord::Kind::went_in:
      case DoneRecord::Kind::given: {
        const std::string amount = record.amount ? rushlight::said(*record.amount, language_) : say(kOfIt, language_);
        const Both& words = record.kind == DoneRecord::Kind::went_in ? kTellAllWentIn : kTellAllGiven;
        return say(words, language_, amount, std::to_string(record.place + 1));
      }
      case DoneRecord::Kind::only_done:
        break;
    }
    return say(kTellDone, language_);
  }

  // "Can't tell" is offered where a question stands.
  bool says_cant_tell() const {
    const Phase phase = phase_of(here_);
    return phase == Phase::ask || (phase == Phase::act && reading_asked_for(here_) != nullptr);
  }

  std::string keys_for_now() const {
    std::string keys;
    const bool trouble = phase_of(here_) != Phase::ended && !view_.actions.empty() && here_.episode.opening.empty();
    if (trouble) keys += say(kKeyTrouble, language_);
    const bool asks_about_call = view_.call || dose_of_the_clinic(view_) != nullptr || reached_last(here_);
    if (asks_about_call && !view_.ended) keys += say(kKeyCall, language_);
    return keys;
  }

  const Situation& here_;
  const View& view_;
  Language language_;
  Screen& screen_;
  std::string meanwhile_ = view_.meanwhile;
};

}  // namespace

std::string text_from_time_left(Duration left) {
  const std::int64_t seconds = std::max<std::int64_t>(left.count(), 0);
  const std::int64_t hours = seconds / 3600;
  const std::int64_t minutes = seconds / 60 % 60;
  if (hours == 0) return std::to_string(minutes) + ":" + two_digits(seconds % 60);
  return std::to_string(hours) + ":" + two_digits(minutes) + ":" + two_digits(seconds % 60);
}

std::string standing_word(ApprovalState state, Language language) {
  switch (state) {
    case ApprovalState::none:
      return say(kNotApproved, language);
    case ApprovalState::changed:
      return say(kChangedSince, language);
    case ApprovalState::untrusted:
      return say(kKeyNotTrusted, language);
    case ApprovalState::to_come:
      return say(kNotYetApproved, language);
    case ApprovalState::over:
      return say(kApprovalEnded, language);
    case ApprovalState::approved:
      break;
  }
  return "";
}

std::string when_shown(const Situation& situation) {
  const int speed = situation.practice;
  std::string line = clock_text(situation.now);
  if (situation.paper) line += ", " + say(kPaper, situation.language());
  if (speed == 1) line += ", " + say(kPracticeOnly, situation.language());
  if (speed > 1) line += ", " + say(kPractice, situation.language(), std::to_string(speed));
  // On every screen, and no row for it: whether a clinic stands for the guide today.
  const std::string standing = standing_word(situation.view.approval.state, situation.language());
  return standing.empty() ? line : line + ", " + standing;
}

std::string live_line(const Situation& situation) {
  const View& view = situation.view;
  if (!view.waiting || !view.wait || !view.wait->started) return "";
  const std::string until = clock_text(view.wait->until);
  const Moment shown = wall(situation.episode.clock, situation.episode.clock.last_wall + situation.episode.clock.lost);
  return say(kTimeLeft, situation.language(), text_from_time_left(view.wait->until.utc - shown.utc), until);
}

Screen screen_of(const Situation& situation, const Dialog& dialog, const std::string& said) {
  Screen screen;
  screen.urgency = in_capitals(shown_as(situation.view.urgency, situation.language()));
  screen.who = situation.view.child;
  screen.when = when_shown(situation);
  screen.headline = situation.view.headline;
  screen.said = said;
  if (situation.paper && screen.said.empty()) screen.said = say(kPaperHow, situation.language());
  screen.live = live_line(situation);
  if (std::holds_alternative<OnStep>(dialog)) {
    StepScreen(situation, screen).fill();
  } else {
    show_menu(situation, dialog, screen);
  }
  return screen;
}

}  // namespace rushlight
