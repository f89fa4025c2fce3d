#include "cli/demo.hpp"

#include <unistd.h>

#include <array>
#include <iostream>
#include <string_view>

#include "cli/child_file.hpp"
#include "cli/clock.hpp"
#include "cli/cut_off.hpp"
#include "cli/first_aid_card.hpp"
#include "cli/say.hpp"
#include "cli/screen_text.hpp"

namespace rushlight {
namespace {

constexpr const char* kNight = "2026-03-01T02:10:00-05:00";
constexpr int kMostScreens = 200;  // a demo that does not end is a mistake in it
constexpr Terminal::Size kPrinted{1000, 80};

constexpr Both kTitle{
    "A demo: an invented child, a full low at night, the waits cut short. Nothing is asked or saved.",
    "Una demostración: un niño inventado, una noche con glucosa baja, sin esperas. No pregunta ni guarda nada."};
constexpr Both kWaited{"(the demo waits until {1})", "(la demostración espera hasta las {1})"};
constexpr Both kOver{"End of the demo. To walk for a child of your own: rushlight child new, then rushlight walk.",
                     "Fin de la demostración. Para su propio niño: rushlight child new, luego rushlight walk."};

/// What the invented caregiver sees and types: low twice, then recovered, and nothing else wrong.
class Caregiver {
 public:
  std::string types(const Situation& here) {
    switch (phase_of(here)) {
      case Phase::ask:
        return answers(here.view.ask.front());
      case Phase::act:
        return reading_asked_for(here) != nullptr ? answers(*reading_asked_for(here)) : "";
      case Phase::wait:
      case Phase::ended:
        return "";
    }
    return "";
  }

 private:
  struct Answer {
    std::string_view fact, option;
  };
  static constexpr std::array<Answer, 6> kAnswers = {{{"awake", "yes"},
                                                      {"swallow", "yes"},
                                                      {"breathing-normally", "yes"},
                                                      {"reading-from", "meter"},
                                                      {"symptoms", "yes"},
                                                      {"drinking", "yes"}}};
  static constexpr std::array<std::string_view, 4> kReadings = {"52", "61", "84", "118"};

  std::string answers(const ShownQuestion& question) {
    if (question.kind == FactKind::glucose) {
      const std::string_view reading = kReadings[std::min(readings_, kReadings.size() - 1)];
      ++readings_;
      return std::string(reading);
    }
    if (!is_choice(question)) return question.kind == FactKind::time_since ? "no" : "0";
    std::string_view wanted = "no";
    for (const Answer& answer : kAnswers) {
      if (answer.fact == question.name) wanted = answer.option;
    }
    for (std::size_t place = 0; place < question.choices.size(); ++place) {
      if (question.choices[place].name == wanted) return std::to_string(place + 1);
    }
    return "1";
  }

  std::size_t readings_ = 0;
};

/// The walk's own screens and turns, over a clock that is moved.
class Demo {
 public:
  Demo(const Protocol& protocol, const Child& child, Moment begins)
      : protocol_(protocol),
        child_(child),
        clock_(begins),
        terminal_(STDOUT_FILENO, false, true),
        episode_(begun(protocol, child, begins)) {}

  int run(Language language) {
    if (language != episode_.language) happens(LanguageChanged{language});
    terminal_.print(say(kTitle, language));
    terminal_.print("");
    for (int screens = 0; screens < kMostScreens; ++screens) {
      const Moment now = clock_.now();
      const Episode settled = settled_at(protocol_, child_, episode_, now);
      const View view = view_of(protocol_, child_, settled, now);
      Situation here{protocol_, child_, settled, view, now};
      here.first = screens == 0;
      dialog_ = still_meant(here, std::move(dialog_));
      const bool waits = std::holds_alternative<OnStep>(dialog_) && phase_of(here) == Phase::wait;
      const std::string typed = std::holds_alternative<OnStep>(dialog_) ? caregiver_.types(here) : "1";
      show(here, waits ? say(kWaited, view.language, clock_text(view.wait->until)) : "> " + typed);
      if (view.ended) return over(language);
      if (waits) {
        clock_.move(view.wait->until.utc - now.utc);
        said_.clear();
        continue;
      }
      const Turn turn = turn_after(here, dialog_, typed);
      clock_.move(kToAnswer);
      dialog_ = turn.next;
      said_ = turn.said;
      if (turn.what) happens(*turn.what);
    }
    return 1;
  }

 private:
  static constexpr Duration kToAnswer{20};

  void happens(const What& what) {
    episode_ = folded(protocol_, child_, std::move(episode_), Event{clock_.now(), what});
  }

  void show(const Situation& here, const std::string& prompt) {
    for (const auto& page : pages_of(screen_of(here, dialog_, said_), kPrinted, here.language())) {
      terminal_.show(page, prompt);
    }
  }

  int over(Language language) {
    terminal_.leave_prompt();
    terminal_.print("");
    terminal_.print(say(kOver, language));
    return terminal_.failed_with() == 0 ? 0 : tell_cut_off(std::cerr, terminal_.failed_with());
  }

  const Protocol& protocol_;
  const Child& child_;
  SetClock clock_;
  Terminal terminal_;
  Episode episode_;
  Caregiver caregiver_;
  Dialog dialog_ = OnStep{};
  std::string said_;
};

}  // namespace

int demo(Language language, const ProtocolSet& set) {
  const Moment begins = *moment_from_text(kNight);
  const ChildFile child = demo_child(local_day_of(begins));
  const LoadedProtocol* low = set.find("low");
  if (!child.child || low == nullptr || has_error(set.findings)) {
    std::cerr << cannot_begin(what_is_wrong(child.child ? set.findings : child.findings, language), language,
                              "rushlight demo");
    return 1;
  }
  return Demo(low->checked.protocol(), *child.child, begins).run(language);
}

}  // namespace rushlight
