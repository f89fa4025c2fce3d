#include "compare.hpp"

#include <algorithm>

#include "episode/view.hpp"
#include "verify/check.hpp"
#include "wire/line_from_event.hpp"

namespace rushlight::naive {

namespace {

std::string shown(const std::string& text) { return text; }
std::string shown(bool yes) { return yes ? "yes" : "no"; }
std::string shown(int number) { return std::to_string(number); }
std::string shown(Urgency urgency) { return std::string(name_of(urgency)); }
std::string shown(Language language) { return language == Language::en ? "en" : "es"; }
std::string shown(Instant instant) { return text_from_moment(Moment{instant, {}}); }
std::string shown(const std::pair<Contact, Instant>& call) {
  return std::string(name_of(call.first)) + " by " + shown(call.second);
}
template <class Thing>
std::string shown(const std::optional<Thing>& thing) {
  return thing ? shown(*thing) : "none";
}
template <class Thing>
std::string shown(const std::vector<Thing>& things) {
  std::string text = "{";
  for (const Thing& thing : things) text += (text.size() == 1 ? "" : ", ") + shown(thing);
  return text + "}";
}

}  // namespace

std::string differences(const Standing& judge, const Standing& engine) {
  std::string text;
  const auto differ = [&text](const char* what, const auto& a, const auto& b) {
    if (!(a == b)) text += std::string("  ") + what + ": judge " + shown(a) + ", engine " + shown(b) + "\n";
  };
  differ("step", judge.step, engine.step);
  differ("urgency", judge.urgency, engine.urgency);
  differ("ask", judge.ask, engine.ask);
  differ("asked since", judge.asked_since, engine.asked_since);
  differ("waiting", judge.waiting, engine.waiting);
  differ("until", judge.until, engine.until);
  differ("counters", judge.counters, engine.counters);
  differ("timers", judge.timers, engine.timers);
  differ("calls", judge.calls, engine.calls);
  differ("given", judge.given, engine.given);
  differ("outcomes", judge.outcomes, engine.outcomes);
  differ("told", judge.told, engine.told);
  differ("clock went back", judge.clock_went_back, engine.clock_went_back);
  differ("ended", judge.ended, engine.ended);
  differ("abandoned", judge.abandoned, engine.abandoned);
  differ("language", judge.language, engine.language);
  return text;
}

Standing engine_at(const Protocol& protocol, const Child& child, const Episode& episode, Moment now) {
  const View view = view_of(protocol, child, episode, now);
  const Episode later = settled_at(protocol, child, episode, now);
  Standing standing{};
  standing.step = view.step;
  standing.urgency = view.urgency;
  for (const ShownQuestion& question : view.ask) standing.ask.push_back(question.name);
  if (view.asked_since) standing.asked_since = view.asked_since->utc;
  standing.waiting = view.waiting;
  if (view.wait) standing.until = view.wait->until.utc;
  standing.counters = later.counted;
  standing.timers = later.timers;
  for (const OpenCall& call : later.calls) standing.calls.emplace_back(call.contact, call.answer_by());
  std::sort(standing.calls.begin(), standing.calls.end());
  for (const Given& given : later.given) {
    standing.given.push_back(protocol[given.action].name + " " + std::string(name_of(given.outcome)) + " " +
                             shown(given.when));
  }
  for (const ActionId action : protocol[later.step].actions) {
    std::string outcome;
    for (const Given& deed : later.deeds) {
      if (deed.action == action) outcome = name_of(deed.outcome);
    }
    standing.outcomes.push_back(outcome);
  }
  standing.told = view.told;
  standing.clock_went_back = later.clock_went_back;
  standing.ended = view.ended;
  standing.abandoned = later.abandoned;
  standing.language = view.language;
  return standing;
}

Drawn drawn_from(std::uint64_t seed, bool valid) {
  Dice dice(seed);
  const Duration beat = beat_from(dice);
  const Child child = child_from(dice);
  if (!valid) return Drawn{wild_protocol(dice, beat), child, beat, 0};
  for (int redrawn = 0;; ++redrawn) {
    Protocol protocol = valid_protocol(dice, beat);
    if (check(protocol).protocol) return Drawn{std::move(protocol), child, beat, redrawn};
  }
}

std::string told(const Protocol& protocol, const Child& child, const Night& night) {
  std::string text = described(protocol) + "child born " + text_from_day(child.birth) + ", " +
                     (child.weight ? text_from_quantity(child.weight->quantity()) : "no weight") + "\n  begins " +
                     text_from_moment(night.begins) + "\n";
  for (const Event& event : night.events) text += "  " + line_from_event(event, protocol) + "\n";
  return text;
}

namespace {

/// Draws a night and folds it with the engine and the judge, which is asked first: it notices circles.
class Walking {
 public:
  Walking(const Drawn& drawn, std::uint64_t seed, Variant variant, Compared& compared)
      : drawn_(drawn),
        dice_(seed),
        night_{evening_from(dice_), {}},
        last_(night_.begins),
        compared_(compared),
        judge_(drawn.protocol, drawn.child, night_.begins, drawn.beat, variant) {}

  /// The first difference; empty when there is none.
  std::string walk() {
    ++compared_.nights;
    if (in_circles(judge_.in_circles())) return "";
    engine_ = begun(drawn_.protocol, drawn_.child, night_.begins);
    for (int events = dice_.between(4, 14); events > 0; --events) {
      for (const std::size_t later : {std::size_t{0}, std::size_t{1}, dice_.below(4), dice_.below(40)}) {
        const std::string difference = difference_at({last_.utc + drawn_.beat * static_cast<int>(later), last_.offset});
        if (!difference.empty()) return difference;
        if (circles_) return "";
      }
      if (!happens()) return "";
    }
    return difference_at(last_);
  }

  const Night& night() const { return night_; }

 private:
  bool in_circles(bool circles) {
    circles_ = circles_ || circles;
    if (circles) ++compared_.in_circles;
    return circles_;
  }

  std::string difference_at(Moment at) {
    const Standing judged = judge_.standing_at(at);
    if (in_circles(judged.in_circles)) return "";
    ++compared_.moments;
    const std::string difference = differences(judged, engine_at(drawn_.protocol, drawn_.child, engine_, at));
    if (difference.empty()) return "";
    return told(drawn_.protocol, drawn_.child, night_) + "at " + text_from_moment(at) + "\n" + difference;
  }

  bool happens() {
    const Instant now = engine_.clock.last_wall + engine_.clock.lost;
    const std::vector<FactId> asked = open_questions(drawn_.protocol, drawn_.child, engine_, now);
    Event event = next_event(dice_, drawn_.protocol, engine_, asked, last_, drawn_.beat);
    judge_.happens(event);
    if (in_circles(judge_.in_circles())) return false;
    engine_ = folded(drawn_.protocol, drawn_.child, std::move(engine_), event);
    night_.events.push_back(event);
    last_ = event.at;
    ++compared_.events;
    return true;
  }

  const Drawn& drawn_;
  Dice dice_;
  Night night_;
  Moment last_;
  Compared& compared_;
  NaiveWalk judge_;
  Episode engine_{};
  bool circles_ = false;
};

}  // namespace

std::string disagreement(const Drawn& drawn, std::uint64_t seed, Variant variant, Compared& compared) {
  return Walking(drawn, seed, variant, compared).walk();
}

Night night_from(const Drawn& drawn, std::uint64_t seed) {
  Compared compared;
  Walking walking(drawn, seed, Variant::as_agreed, compared);
  walking.walk();
  return walking.night();
}

}  // namespace rushlight::naive
