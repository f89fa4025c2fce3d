#include "cli/page/page_screen.hpp"

#include <algorithm>

#include "cli/done_record.hpp"
#include "cli/page/pads.hpp"
#include "cli/page/touch_words.hpp"
#include "cli/plain_text.hpp"
#include "cli/screen_text.hpp"
#include "episode/phrases.hpp"
#include "episode/words.hpp"

namespace rushlight {
namespace {

std::string_view name_of_phase(Phase phase) {
  constexpr std::string_view kNames[] = {"ask", "act", "wait", "ended"};
  return kNames[static_cast<std::size_t>(phase)];
}

/// One screen as JSON.
class PageScreen {
 public:
  PageScreen(JsonWriter& json, const Situation& here, const Dialog& dialog, const Screen& screen)
      : json_(json), here_(here), view_(here.view), dialog_(dialog), screen_(screen), language_(here.language()) {}

  void write(int number) {
    json_.begin_object();
    json_.key("number").whole(number);
    json_.key("language").text(language_ == Language::es ? "es" : "en");
    json_.key("urgency").text(name_of(view_.urgency)).key("word").text(shown_as(view_.urgency, language_));
    json_.key("who").text(cleaned(screen_.who)).key("when").text(cleaned(screen_.when));
    json_.key("headline").text(cleaned(screen_.headline));
    json_.key("said").text(by_touch(cleaned(screen_.said), language_).value_or(""));
    json_.key("phase").text(on_step() ? name_of_phase(phase_of(here_)) : "menu");
    json_.key("leftAt").text(left_at());
    json_.key("more").boolean(std::holds_alternative<ChoosingMore>(dialog_));
    write_lines();
    json_.key("main");
    write_main();
    json_.key("pads").begin_list();
    write_pads(json_, here_, dialog_);
    json_.end_list();
    json_.key("field").whole(most_letters());
    write_keys();
    json_.key("call");
    write_call();
    json_.key("live");
    write_live();
    json_.end_object();
  }

 private:
  bool on_step() const { return std::holds_alternative<OnStep>(dialog_); }

  void button(const char* kind, const Both& words, const std::string& typed) {
    json_.begin_object().key("kind").text(kind).key("text").text(say(words, language_)).key("by").text(typed);
    json_.end_object();
  }

  bool asks_number() const {
    const Phase phase = phase_of(here_);
    const bool reading = phase == Phase::act && reading_asked_for(here_) != nullptr;
    return on_step() && (reading || (phase == Phase::ask && !is_choice(view_.ask.front())));
  }

  /// When the episode was given up by hand; empty: it was not.
  std::string left_at() const {
    const auto& history = here_.episode.history;
    const auto left = std::find_if(history.rbegin(), history.rend(),
                                   [](const Event& event) { return std::holds_alternative<Abandoned>(event.what); });
    return here_.episode.abandoned && left != history.rend() ? clock_text(left->at) : "";
  }

  // Of the question that stands there. It decides the answer, so it stands in front of the answers.
  std::string help() const {
    if (const auto* correcting = std::get_if<Correcting>(&dialog_)) return question_of(here_, correcting->fact).help;
    return on_step() && phase_of(here_) == Phase::ask ? view_.ask.front().help : "";
  }

  void write_lines() {
    json_.key("lines").begin_list();
    for (const Block& block : screen_.body) {
      const std::optional<std::string> text = by_touch(cleaned(block.text), language_);
      if (!text || text->empty()) continue;
      if (asks_number() && block.text == say(kCantTellChoice, language_)) continue;  // it has a key below the pad
      json_.begin_object().key("text").text(*text);
      if (!block.chosen_by.empty()) json_.key("by").text(block.chosen_by);
      if (block.tells_to) json_.key("to").text(name_of(*block.tells_to));
      if (block.lead == "- ") json_.key("item").boolean(true);
      if (block.can_wait && block.text != help()) json_.key("later").boolean(true);
      json_.end_object();
    }
    json_.end_list();
  }

  // The one thing to tap when all is as the screen says.
  void write_main() {
    const Phase phase = phase_of(here_);
    const bool acts = on_step() && phase == Phase::act;
    if (on_step() && phase == Phase::ended) return write_main("close", say(kButtonClose, language_));
    if (!acts) return write_null();
    if (reading_asked_for(here_) != nullptr) return write_null();
    if (any_is_pending(here_) || dose_of_the_clinic(view_) != nullptr) return write_main("done", done_words());
    if (pending_call(view_) != nullptr) return write_main("call", say(kButtonHowTheCallWent, language_));
    write_null();
  }
  void write_main(const char* kind, const std::string& text) {
    json_.begin_object().key("kind").text(kind).key("text").text(text).key("by").text("").end_object();
  }
  void write_null() { json_.null(); }

  std::string done_words() const {
    const DoneRecord record = done_record(here_);
    switch (record.kind) {
      case DoneRecord::Kind::asks_how_much:
        return say(kButtonHowMuch, language_);
      case DoneRecord::Kind::asks_the_clinic:
        return say(kButtonDoseAsked, language_);
      case DoneRecord::Kind::went_in:
      case DoneRecord::Kind::given: {
        if (!record.amount) break;
        const Both& words = record.kind == DoneRecord::Kind::went_in ? kButtonAllWentIn : kButtonAllGiven;
        return say(words, language_, said(*record.amount, language_));
      }
      case DoneRecord::Kind::only_done:
        break;
    }
    return say(kButtonAllDone, language_);
  }

  /// How long a text may be typed here; 0: none is.
  int most_letters() const {
    constexpr int kSaid = 300, kName = 60;
    if (std::holds_alternative<TypingWhatTheySaid>(dialog_)) return kSaid;
    return std::holds_alternative<TypingName>(dialog_) ? kName : 0;
  }

  void write_keys() {
    json_.key("keys").begin_list();
    if (!on_step()) {
      if (std::holds_alternative<TypingUnits>(dialog_)) button("answer", kButtonNotKnown, "");
      button("back", kButtonBack, "");
    }
    if (!std::holds_alternative<NamingWorse>(dialog_)) button("worse", kButtonWorse, "w");
    if (on_step()) write_step_keys();
    json_.end_list();
  }

  void write_step_keys() {
    const Phase phase = phase_of(here_);
    const bool acts = phase == Phase::act;
    if (asks_number()) button("answer", kCantTellChoice, "t");
    const bool beside_each = acts && reading_asked_for(here_) == nullptr;  // then each has a button of its own for it
    const bool trouble = phase != Phase::ended && !beside_each && here_.episode.opening.empty() &&
                         std::any_of(view_.actions.begin(), view_.actions.end(), can_go_wrong);
    const bool said_of_call = view_.call || dose_of_the_clinic(view_) != nullptr || reached_last(here_);
    const bool is_main = acts && !any_is_pending(here_) && dose_of_the_clinic(view_) == nullptr &&
                         pending_call(view_) != nullptr && reading_asked_for(here_) == nullptr;
    if (said_of_call && !view_.ended && !is_main) button("call", kButtonHowTheCallWent, "c");
    if (trouble) button("wrong", kButtonWentWrong, "x");
    button("why", kButtonWhy, "r");
    button("mistyped", kButtonMistyped, "b");
    button("more", kButtonMore, "m");
  }

  void write_call() {
    const Contacts& known = here_.child.contacts;
    if (!view_.call) return write_null();
    const Contact contact = view_.call->contact;
    json_.begin_object().key("kind").text(contact == Contact::emergency ? "emergency" : "clinic");
    json_.key("who").text(cleaned(who(contact, language_)));
    json_.key("number").text(cleaned(number_of(known, contact, language_)));
    json_.key("tel").text(dialled(contact == Contact::clinic    ? known.clinic
                                  : contact == Contact::on_call ? known.on_call
                                                                : known.emergency));
    json_.end_object();
  }

  void write_live() {
    if (!view_.waiting || !view_.wait || !view_.wait->started) return write_null();
    const Moment shown = wall(here_.episode.clock, here_.episode.clock.last_wall + here_.episode.clock.lost);
    const Duration left = view_.wait->until.utc - shown.utc;
    json_.begin_object().key("label").text(cleaned(view_.wait->label));
    json_.key("left").text(text_from_time_left(left)).key("seconds").whole(std::max<long long>(left.count(), 0));
    json_.key("until").text(clock_text(view_.wait->until)).end_object();
  }

  JsonWriter& json_;
  const Situation& here_;
  const View& view_;
  const Dialog& dialog_;
  const Screen& screen_;
  Language language_;
};

}  // namespace

std::string dialled(const std::string& number) {
  std::string digits;
  for (const char letter : number) {
    if ((letter >= '0' && letter <= '9') || (letter == '+' && digits.empty())) digits += letter;
  }
  const auto count = std::count_if(digits.begin(), digits.end(), [](char letter) { return letter != '+'; });
  return count < 2 ? "" : digits;
}

void write_page_screen(JsonWriter& json, const Situation& situation, const Dialog& dialog, const Screen& screen,
                       int number) {
  PageScreen(json, situation, dialog, screen).write(number);
}

void write_contacts(JsonWriter& json, const Contacts& known, Language language) {
  const auto one = [&](const char* kind, const std::string& name, const std::string& shown, const std::string& number) {
    json.begin_object().key("kind").text(kind).key("who").text(cleaned(name)).key("number").text(cleaned(shown));
    json.key("tel").text(dialled(number)).end_object();
  };
  json.begin_list();
  constexpr std::pair<Contact, const char*> kAll[] = {
      {Contact::emergency, "emergency"}, {Contact::on_call, "on-call"}, {Contact::clinic, "clinic"}};
  for (const auto& [contact, kind] : kAll) {
    const std::string& number = contact == Contact::clinic    ? known.clinic
                                : contact == Contact::on_call ? known.on_call
                                                              : known.emergency;
    one(kind, sentence_case(who(contact, language)), number_of(known, contact, language), number);
  }
  if (!known.second_adult.empty() || !known.second_adult_name.empty()) {
    const std::string name =
        known.second_adult_name.empty() ? phrase(Phrase::second_adult, language) : known.second_adult_name;
    one("second-adult", name, known.second_adult.empty() ? say(kNoNumber, language) : known.second_adult,
        known.second_adult);
  }
  json.end_list();
}

}  // namespace rushlight
