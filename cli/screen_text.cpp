#include "cli/screen_text.hpp"

#include <algorithm>

#include "cli/menus.hpp"
#include "cli/outcome_words.hpp"
#include "cli/plain_text.hpp"
#include "cli/say.hpp"
#include "episode/drinks.hpp"
#include "episode/phrases.hpp"
#include "episode/words.hpp"

namespace rushlight {
namespace {

constexpr std::size_t kGivenLinesShown = 2;  // the latest; "more" has them all

std::string two_digits(std::int64_t number) { return (number < 10 ? "0" : "") + std::to_string(number); }

constexpr std::size_t kFewWords = 12;  // bytes: "Give ", "Ahora dé "

/// "7 g: " when the text of an action does not have its amount among its first words: the number comes first. A drink
/// goes down in sips: the whole of it in front of them would be read as one gulp. Micrograms go nowhere near the marks
/// of an insulin syringe: "100" is a mark on it.
std::string amount_in_front(const ShownAction& action, Language language) {
  if (!action.dose || !action.dose->amount) return "";
  const std::string amount = said(*action.dose->amount, language);
  if (action.dose->amount->unit == Unit::microgram) return "";
  if (action.kind == ActionKind::fluid && action.text.find(amount) != std::string::npos) return "";
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
    if (time_is_up(here_) && !has_given()) add("", say(kTimeIsUp, language_));
    switch (phase_of(here_)) {
      case Phase::ask:
        show_question();
        break;
      case Phase::act:
        show_actions(true);
        show_early(view_.actions.size());
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
      add("", say(kStartsWhenDone, language_, clock_text(view_.wait->until)));
    if (!view_.told.empty()) add("", say(kTheySaid, language_, view_.told));
    show_reminders();
    show_cautions();
    screen_.tell = tell();
    screen_.keys = say(kKeys, language_, keys_for_now());
    screen_.few_keys = say(kFewKeys, language_);
  }

 private:
  void add(const std::string& lead, const std::string& text) { screen_.body.push_back({lead, text}); }
  void later(const std::string& text) { screen_.body.push_back({"", text, true}); }
  void blank() { screen_.body.push_back({}); }

  // Under a graver call the step keeps its own line; what else was said stands right below.
  void show_step_line() {
    const std::string doing = has_given() || has_called() ? line_after_doing() : "";
    std::string& line = view_.meanwhile.empty() ? screen_.headline : meanwhile_;
    if (!doing.empty()) line = doing;
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
      add(lead, mark + amount_in_front(action, language_) + action.text);
    }
  }

  void show_question() {
    const ShownQuestion& question = view_.ask.front();
    for (const ShownAction& action : view_.actions) {
      const bool told_here = here_.episode.opening.empty() && is_pending(here_, action);
      if (told_here) add("", say(kStillToDo, language_, action.text));
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
  bool has_called() const { return answered_call() != nullptr && phase_of(here_) != Phase::act; }
  std::string line_after_doing() const {
    const bool emergency = view_.urgency == Urgency::emergency;
    if (phase_of(here_) == Phase::wait)
      return say(emergency ? kWatchUntil : kWaitUntil, language_, clock_text(view_.wait->until), view_.child);
    if (time_is_up(here_)) return say(kTimeIsUp, language_);
    if (!has_called() || phase_of(here_) != Phase::ask) return "";
    const bool help = answered_call()->kind == ActionKind::call_emergency;
    return say(help ? kHelpAnswered : kClinicAnswered, language_);
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
      if (goes_on) add("- ", action.text);
    }
    show_early(0);
    show_drinks();
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
    add("", say(kDrunkSoFar, language_, rushlight::said(view_.drinks->drunk, language_), clock_text(view_.wait->until),
                rushlight::said(then->goal, language_)));
    add("", say(kDrinkMore, language_));
  }

  // What ends the wait before its time, numbered behind `before` other lines.
  void show_early(std::size_t before) {
    if (view_.early.empty()) return;
    blank();
    add("", say(kBeforeThen, language_));
    for (std::size_t at = 0; at < view_.early.size(); ++at) {
      add(std::to_string(before + at + 1) + ". ", view_.early[at].text);
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
          const std::string reading = say(kTellDoneOrReading, language_, key_without_meter());
          return pending_call(view_) != nullptr ? reading + " " + say(kTellCalled, language_) : reading;
        }
        if (any_is_pending(here_)) return tell_done();
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
    const auto& actions = view_.actions;
    const auto asks = [&](const ShownAction& action) { return asks_how_much(here_, action); };
    if (std::any_of(actions.begin(), actions.end(), asks)) return say(kTellHowMuch, language_);
    for (std::size_t at = 0; at < actions.size(); ++at) {
      const ActionKind kind = actions[at].kind;
      const bool mouth = kind == ActionKind::by_mouth || kind == ActionKind::fluid;
      const bool skin = kind == ActionKind::glucagon || kind == ActionKind::insulin;
      if (!is_pending(here_, actions[at]) || !(mouth || skin)) continue;
      const bool counted =
          actions[at].dose && actions[at].dose->amount && actions[at].dose->amount->unit != Unit::microgram;
      const std::string amount =
          counted ? rushlight::said(*actions[at].dose->amount, language_) : say(kOfIt, language_);
      return say(mouth ? kTellAllWentIn : kTellAllGiven, language_, amount, std::to_string(at + 1));
    }
    return say(kTellDone, language_);
  }

  std::string key_without_meter() const {
    const auto& actions = view_.actions;
    if (actions.size() < 2) return "x";
    for (std::size_t at = 0; at < actions.size(); ++at) {
      if (actions[at].kind == ActionKind::measure) return std::to_string(at + 1);
    }
    return "x";
  }

  std::string keys_for_now() const {
    std::string keys;
    const bool trouble = phase_of(here_) != Phase::ended && !view_.actions.empty() && here_.episode.opening.empty();
    if (trouble) keys += say(kKeyTrouble, language_);
    if (view_.call) keys += say(kKeyCall, language_);
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
