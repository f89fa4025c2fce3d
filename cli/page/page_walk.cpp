#include "cli/page/page_walk.hpp"

#include <map>

#include "cli/misplaced_deed.hpp"
#include "cli/page/page_screen.hpp"
#include "cli/page/refused_call.hpp"
#include "cli/page/touch_words.hpp"
#include "cli/past_night.hpp"
#include "cli/plain_text.hpp"
#include "cli/screen_text.hpp"
#include "episode/approval_text.hpp"
#include "episode/phrases.hpp"
#include "episode/words.hpp"
#include "wire/child_from_json.hpp"
#include "wire/event_from_line.hpp"
#include "wire/history_from_json.hpp"
#include "wire/json_from_finding.hpp"
#include "wire/json_from_view.hpp"
#include "wire/line_from_event.hpp"
#include "wire/protocol_model.hpp"

namespace rushlight {
namespace {

constexpr JsonLimits kCallLimits{16 * 1024 * 1024,
                                 8};  // a resume brings the lines of a night, a begin two weeks of them


std::vector<std::string> texts_of(const JsonNode* list) {
  std::vector<std::string> texts;
  if (list == nullptr) return texts;
  for (const JsonNode& item : list->items) texts.push_back(item.text);
  return texts;
}

std::string text_in(const JsonNode& node, std::string_view key) {
  const JsonNode* found = node.find(key);
  return found == nullptr ? "" : found->text;
}

struct OtherPlan {
  std::vector<Protocol> protocols;
  Child child;
};

void add_to_past(History& past, const JsonNode& night, const std::vector<Protocol>& protocols, const Child& child) {
  const std::vector<std::string> lines = texts_of(night.find("lines"));
  const std::optional<Moment> began = moment_from_text(text_in(night, "began"));
  const std::string name = text_in(night, "protocol");
  for (const Protocol& protocol : protocols) {
    if (protocol.name != name || !began) continue;
    const auto told = episode_told_by(lines, protocol, child, *began, "the journal");
    if (const auto* episode = std::get_if<Episode>(&told)) return add_night_to_history(past, protocol, *episode);
  }
  add_lines_to_history(past, lines, child.unit);
}

}  // namespace

struct PageWalk::Request {
  JsonNode node;
  Moment at;

  std::string text(std::string_view key) const { return text_in(node, key); }
  std::int64_t number(std::string_view key) const {
    const auto read = decimal_from_text(text(key));
    const auto* number = std::get_if<Decimal>(&read);
    return number == nullptr ? 0 : number->micros() / Decimal::kMicrosPerOne;
  }
  std::chrono::nanoseconds ticks() const { return std::chrono::seconds{number("ticks")}; }
};

std::string PageWalk::open(const std::string& model, const std::string& child, const std::string& today) {
  const std::optional<Day> day = day_from_text(today);
  if (!day) return refused_call("the day is none");
  Read<std::vector<Protocol>> protocols = protocols_from_text(model);
  if (!protocols.value) return json_from_refusal(protocols.findings);
  Read<Child> read = child_from_json(child, "the child file", *day);
  if (!read.value) return json_from_refusal(read.findings);
  if (protocols.value->empty()) return refused_call("the plan holds no protocol");
  *this = PageWalk{};
  protocols_ = std::move(*protocols.value);
  child_ = std::move(read.value);
  JsonWriter json;
  json.begin_object().key("child").text(cleaned(child_->name));
  json.key("language").text(child_->language == Language::es ? "es" : "en").key("set").text(cleaned(protocols_[0].set));
  json.key("address").text(cleaned(child_->contacts.address));
  json.key("protocols").begin_list();
  for (const Protocol& each : protocols_) {
    json.begin_object().key("id").text(each.name).key("version").text(cleaned(each.version));
    json.key("en").text(cleaned(plain_words(each.title, Language::en)));
    json.key("es").text(cleaned(plain_words(each.title, Language::es)));
    json.end_object();
  }
  json.end_list();
  for (const Language language : {Language::en, Language::es}) {
    const std::optional<Approval> approval =
        protocols_[0].parts.empty() ? std::nullopt : protocols_[0].parts[0].approval;
    json.key(language == Language::en ? "en" : "es").begin_object();
    json.key("contacts");
    write_contacts(json, child_->contacts, language);
    json.key("approval").text(cleaned(approval_text(approval, *day, language)));
    json.key("caution").text(phrase(Phrase::does_not_replace, language));
    json.end_object();
  }
  return json.end_object().json();
}

std::string PageWalk::call(const std::string& text) {
  if (!child_) return refused_call("no plan is open");
  Read<JsonNode> read = json_from_text(text, "the page", kCallLimits);
  if (!read.value) return json_from_refusal(read.findings);
  Request request{std::move(*read.value), Moment{}};
  lines_.clear();
  if (request.text("do") == "line") return line(request);
  const std::optional<Moment> at = moment_from_text(request.text("at"));
  if (!at) return refused_call("`at` is no time");
  request.at = *at;
  return answer(request);
}

std::string PageWalk::answer(const Request& request) {
  const std::string wanted = request.text("do");
  if (wanted == "begin") return begin(request);
  if (wanted == "resume") return resume(request);
  if (!episode_) return refused_call("no episode is open");
  if (wanted == "look") {
    look(request);
    return seen(request);
  }
  if (wanted == "tap") return tap(request);
  if (wanted == "back") {
    dialog_ = OnStep{};
    said_.clear();
    by_tap_ = true;
    look(request);
    return seen(request);
  }
  return refused_call("`do` says nothing that is known");
}

bool PageWalk::choose(const std::string& wanted) {
  for (std::size_t place = 0; place < protocols_.size(); ++place) {
    if (protocols_[place].name != wanted) continue;
    chosen_ = place;
    episode_.reset();
    dialog_ = OnStep{};
    said_.clear();
    first_ = by_tap_ = true;
    shown_.reset();
    noticed_.reset();
    bell_ = Bell{};
    return true;
  }
  return false;
}

std::string PageWalk::begin(const Request& request) {
  if (!choose(request.text("protocol"))) return refused_call("the plan has no such protocol");
  episode_ = begun(protocol(), *child_, request.at);
  if (reads_the_past(protocol())) tell(Event{request.at, Remembered{past_told_by(request)}});
  const Language language = request.text("language") == "es" ? Language::es : Language::en;
  if (language != episode_->language) tell(Event{request.at, LanguageChanged{language}});
  look(request);
  return seen(request);
}

// Each night by the plan it was walked with: this one, or one that comes along. Of a night that no plan reads, what its
// lines say by themselves.
History PageWalk::past_told_by(const Request& request) const {
  std::map<std::string, OtherPlan> others;
  if (const JsonNode* plans = request.node.find("plans")) {
    for (const JsonNode& plan : plans->items) {
      Read<std::vector<Protocol>> protocols = protocols_from_text(text_in(plan, "model"));
      Read<Child> child = child_from_json(text_in(plan, "child"), "the child file", local_day_of(request.at));
      if (protocols.value && child.value)
        others.emplace(text_in(plan, "sum"), OtherPlan{std::move(*protocols.value), std::move(*child.value)});
    }
  }
  History past;
  const JsonNode* nights = request.node.find("nights");
  if (nights == nullptr) return past;
  for (const JsonNode& night : nights->items) {
    const std::string sum = text_in(night, "plan");
    const auto other = others.find(sum);
    if (sum.empty())
      add_to_past(past, night, protocols_, *child_);
    else if (other != others.end())
      add_to_past(past, night, other->second.protocols, other->second.child);
    else
      add_lines_to_history(past, texts_of(night.find("lines")), child_->unit);
  }
  keep_recent(past, request.at);
  return past;
}

std::string PageWalk::resume(const Request& request) {
  const std::optional<Moment> began = moment_from_text(request.text("began"));
  if (!began || !choose(request.text("protocol"))) return refused_call("the plan has no such protocol");
  auto told = episode_told_by(texts_of(request.node.find("lines")), protocol(), *child_, *began, "the journal");
  if (const auto* findings = std::get_if<std::vector<Finding>>(&told)) return json_from_refusal(*findings);
  episode_ = std::move(std::get<Episode>(told));
  said_ = say(kGoingOn, episode_->language, clock_text(episode_->began));
  first_ = false;
  look(request);
  return seen(request);
}

void PageWalk::tell(const Event& event) {
  lines_.push_back(line_from_event(event, protocol()));
  episode_ = folded(protocol(), *child_, std::move(*episode_), event);
}

// What passed by itself is on the screen before anything that was tapped means something.
void PageWalk::look(const Request& request) {
  now_ = request.at;
  settled_ = settled_at(protocol(), *child_, *episode_, now_);
  view_ = view_of(protocol(), *child_, settled_, now_);
  Situation here{protocol(), *child_, settled_, view_, now_};
  here.first = first_;
  dialog_ = still_meant(here, std::move(dialog_));
  if (noticed_ && !(*noticed_ == noticed_in(view_, now_.utc)) && !by_tap_) said_.clear();
  Screen screen = screen_of(here, dialog_, said_);
  if (!shown_ || by_tap_ || !shown_->says_the_same_as(screen)) ++number_;
  shown_ = std::move(screen);
}

std::string PageWalk::seen(const Request& request, const char* command) {
  Situation here{protocol(), *child_, settled_, view_, now_};
  here.first = first_;
  const Noticed noticed = noticed_in(view_, now_.utc);
  const bool moved = noticed_ && !(*noticed_ == noticed);
  noticed_ = noticed;
  const bool rings =
      !by_tap_ && bell_.rings({moved, time_is_up(here), somebody_is_asked(here)}, request.ticks(), now_.utc);
  by_tap_ = false;
  JsonWriter json;
  json.begin_object().key("screen");
  write_page_screen(json, here, dialog_, *shown_, number_);
  json.key("lines").begin_list();
  for (const std::string& line : lines_) json.text(line);
  json.end_list();
  json.key("began").text(text_from_moment(episode_->began)).key("protocol").text(protocol().name);
  json.key("last").text(text_from_moment(Moment{episode_->clock.last_wall, episode_->clock.offset}));
  json.key("ended").boolean(episode_->ended).key("rings").boolean(rings).key("command").text(command);
  return json.end_object().json();
}

std::string PageWalk::tap(const Request& request) {
  look(request);
  const int number = number_;
  if (request.number("screen") != number) {
    noticed_ = noticed_in(view_, now_.utc);  // somebody is there and looks: nothing has to ring
    said_ = say(kJustChanged, view_.language);
    look(request);
    return seen(request);
  }
  bell_.hear_key(request.ticks(), now_.utc);
  by_tap_ = true;
  Situation here{protocol(), *child_, settled_, view_, now_};
  here.first = first_;
  const Turn turn = turn_after(here, dialog_, request.text("typed"));
  if (turn.what) {
    tell(Event{now_, *turn.what});
    first_ = false;
  }
  dialog_ = turn.next;
  said_ = turn.said;
  look(request);
  const bool leaves = turn.command == Command::stop || turn.command == Command::close;
  return seen(request, turn.command == Command::beep ? "beep" : leaves ? "leave" : "");
}

std::string PageWalk::line(const Request& request) {
  const std::string text = request.text("line");
  const bool begins = !episode_ || !request.text("first").empty();
  if (begins && !choose(request.text("protocol"))) return refused_call("the plan has no such protocol");
  auto read = event_from_line(text, protocol(), *child_, "input", 1);
  if (const auto* findings = std::get_if<std::vector<Finding>>(&read)) return json_from_refusal(*findings);
  const Event& event = std::get<Event>(read);
  if (!episode_) {
    episode_ = begun(protocol(), *child_, event.at);
    if (reads_the_past(protocol())) tell(Event{event.at, Remembered{}});
  }
  const Where place{"input", 1, 1, 1};
  if (const auto misplaced = misplaced_deed(protocol(), *child_, *episode_, event, place))
    return json_from_refusal({*misplaced});
  tell(event);
  return json_from_view(view_of(protocol(), *child_, *episode_, event.at));
}

}  // namespace rushlight
