#include "cli/page/pads.hpp"

#include <algorithm>

#include "cli/page/touch_words.hpp"
#include "cli/plain_text.hpp"

namespace rushlight {
namespace {

class Pads {
 public:
  Pads(JsonWriter& json, const Situation& here) : json_(json), here_(here), language_(here.language()) {}

  void write(const Dialog& dialog) {
    if (std::holds_alternative<OnStep>(dialog)) return write_on_step();
    if (const auto* correcting = std::get_if<Correcting>(&dialog))
      return for_question(question_of(here_, correcting->fact));
    if (const auto* again = std::get_if<TypingAgain>(&dialog))
      return glucose(question_of(here_, again->fact), true, again->reading.unit());
    if (std::holds_alternative<TypingUnits>(dialog)) {
      begin(true, say(kUnitsTitle, language_), true, {});
      end_with({{"", say(kUnitsWord, language_)}});
    }
    if (std::holds_alternative<TypingDrink>(dialog)) drink(true);
  }

 private:
  struct End {
    std::string behind, text;  // typed behind the number; the words of the button
  };

  void write_on_step() {
    switch (phase_of(here_)) {
      case Phase::ask:
        for_question(here_.view.ask.front());
        break;
      case Phase::act:
        if (const ShownQuestion* reading = reading_asked_for(here_)) for_question(*reading);
        break;
      case Phase::wait:
        if (const auto fact = reading_taken_early(here_, FactKind::glucose)) glucose(question_of(here_, *fact), false);
        if (reading_taken_early(here_, FactKind::ketones)) ketones_meanwhile();
        if (shows_a_drink()) drink(false);
        break;
      case Phase::ended:
        break;
    }
  }

  bool shows_a_drink() const {
    const auto& actions = here_.view.actions;
    return std::any_of(actions.begin(), actions.end(),
                       [](const ShownAction& action) { return action.kind == ActionKind::fluid; });
  }

  void for_question(const ShownQuestion& question) {
    switch (question.kind) {
      case FactKind::glucose:
        return glucose(question, true);
      case FactKind::ketones:
        begin(true, question.text, true, {"HI"});
        return end_with({{"", "mmol/L"}});
      case FactKind::count:
        begin(true, question.text, false, {});
        return end_with({{"", say(kTimes, language_)}});
      case FactKind::time_since:
        begin(true, question.text, true, {});
        json_.key("none").begin_object().key("text").text(say(kButtonNotLately, language_));
        json_.key("by").text("no").end_object();
        return end_with({{" min", say(kMinutesAgo, language_)}, {" h", say(kHoursAgo, language_)}});
      default:
        return;  // picked from a list
    }
  }

  // In the unit of the child's meter; the other one is there for a meter that is set otherwise, and is typed with it.
  void glucose(const ShownQuestion& question, bool open) { glucose(question, open, here_.child.unit); }
  void glucose(const ShownQuestion& question, bool open, GlucoseUnit first) {
    const bool mg = here_.child.unit == GlucoseUnit::mg_per_dl;
    begin(open, open ? question.text : say(kButtonReadingNow, language_), !mg, {"LO", "HI"});
    json_.key("other").begin_object().key("unit").text(mg ? "mmol/L" : "mg/dL");
    json_.key("behind").text(mg ? " mmol/L" : " mg/dL").key("decimal").boolean(mg);
    json_.key("first").boolean(first != here_.child.unit).end_object();
    const std::string unit = mg ? "mg/dL" : "mmol/L";
    end_with({{open ? "" : " " + unit, unit}});  // beside a drink "60" alone could be either
  }

  // A number alone would be a glucose, so the word goes in front, as in the terminal.
  void ketones_meanwhile() {
    begin(false, say(kButtonKetonesNow, language_), true, {"HI"}, "ketones ");
    end_with({{"", "mmol/L"}});
  }

  void drink(bool open) {
    begin(open, say(open ? kDrinkTitle : kButtonDrank, language_), false, {});
    end_with({{" mL", "mL"}});
  }

  void begin(bool open, const std::string& text, bool decimal, const std::vector<std::string>& marks,
             const std::string& front = "") {
    json_.begin_object().key("open").boolean(open).key("text").text(cleaned(text)).key("front").text(front);
    json_.key("decimal").boolean(decimal).key("marks").begin_list();
    for (const std::string& mark : marks) json_.text(mark);
    json_.end_list();
  }
  void end_with(const std::vector<End>& ends) {
    json_.key("ends").begin_list();
    for (const End& end : ends) {
      json_.begin_object().key("unit").text(end.text).key("behind").text(end.behind);
      json_.key("enter").text(say(kButtonEnter, language_)).end_object();
    }
    json_.end_list().end_object();
  }

  JsonWriter& json_;
  const Situation& here_;
  Language language_;
};

}  // namespace

void write_pads(JsonWriter& json, const Situation& situation, const Dialog& dialog) {
  Pads(json, situation).write(dialog);
}

}  // namespace rushlight
