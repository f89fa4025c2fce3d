#include "compare.hpp"

#include <algorithm>
#include <sstream>

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
std::string shown(const std::pair<Contact, Instant>& call) { return std::string(name_of(call.first)) + " by " + shown(call.second); }
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
  standing.waiting = view.waiting;
  if (view.wait) standing.until = view.wait->until.utc;
  standing.counters = later.counted;
  standing.timers = later.timers;
  for (const OpenCall& call : later.calls) {
    standing.calls.emplace_back(call.contact, call.contact == Contact::emergency ? Instant{} : call.answer_by());
  }
  std::sort(standing.calls.begin(), standing.calls.end());
  for (const Given& given : later.given) {
    standing.given.push_back(protocol[given.action].name + " " + std::string(name_of(given.outcome)) + " " + shown(given.when));
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

std::string disagreement(const Drawn& drawn, std::uint64_t seed, Variant variant, Compared& compared) {
  const Protocol& protocol = drawn.protocol;
  Dice dice(seed);
  const Moment begins = evening_from(dice);
  NaiveWalk judge(protocol, drawn.child, begins, drawn.beat, variant);
  Episode engine = begun(protocol, drawn.child, begins);
  std::ostringstream night;
  night << "  begins " << text_from_moment(begins) << ", beat " << drawn.beat.count() << " s\n";
  Moment last = begins;
  const auto report = [&](const std::string& difference, Moment at) {
    std::ostringstream text;
    text << described(protocol) << "child born " << text_from_day(drawn.child.birth) << "\n"
         << night.str() << " at " << text_from_moment(at) << "\n"
         << difference;
    return text.str();
  };
  ++compared.nights;
  const int events = dice.between(4, 14);
  for (int i = 0; i < events; ++i) {
    const std::size_t beats_later[] = {0, 1, dice.below(4), dice.below(40)};
    for (const std::size_t later : beats_later) {
      const Moment at{last.utc + drawn.beat * static_cast<int>(later), last.offset};
      const Standing judged = judge.standing_at(at);
      if (judge.in_circles()) {
        ++compared.in_circles;
        return "";
      }
      ++compared.moments;
      const std::string difference = differences(judged, engine_at(protocol, drawn.child, engine, at));
      if (!difference.empty()) return report(difference, at);
    }
    const Instant now = engine.clock.last_wall + engine.clock.lost;
    const std::vector<FactId> asked = open_questions(protocol, drawn.child, engine, now);
    const Event event = next_event(dice, protocol, engine, asked, last, drawn.beat);
    night << "  " << line_from_event(event, protocol) << "\n";
    judge.happens(event);
    engine = folded(protocol, drawn.child, std::move(engine), event);
    last = event.at;
    ++compared.events;
  }
  return "";
}

}  // namespace rushlight::naive
