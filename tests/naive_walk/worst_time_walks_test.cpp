#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <iostream>

#include "compare.hpp"
#include "episode/fold.hpp"
#include "episode/settle.hpp"
#include "sanitized.hpp"
#include "verify/replay.hpp"

// Nights drawn by lot and walked by the engine, against what was proven of all nights: none is later, none ends
// otherwise, none stands where it is said that nobody comes.

using namespace rushlight;
using namespace rushlight::naive;
using namespace std::chrono_literals;

namespace {

constexpr std::uint64_t kProtocolsDrawn = tests::kSanitized ? 60 : 1500;
constexpr int kNightsEach = 12;
constexpr std::size_t kMostFollowed = 3000;

struct Drawing {
  Scenario scenario;
  Promptness answers;
  GlucoseUnit unit;
};

std::vector<Condition> conditions_on_answers(const Protocol& protocol) {
  std::vector<Condition> all;
  const auto add = [&](const Conditions& when) {
    for (const Condition& condition : when) {
      const Subject subject = subject_of(condition);
      if (subject.kind == Subject::Kind::fact && !protocol.facts[subject.index].from_child) all.push_back(condition);
    }
  };
  for (const Step& step : protocol.steps) {
    for (const Rule& rule : step.rules) add(rule.when);
  }
  return all;
}

Drawing drawing_from(Dice& dice, const Protocol& protocol) {
  Drawing drawing{};
  drawing.answers = dice.chance(50) ? Promptness::at_once : Promptness::late;
  drawing.unit = dice.chance(50) ? GlucoseUnit::mg_per_dl : GlucoseUnit::mmol_per_l;
  drawing.scenario.call = static_cast<Urgency>(dice.between(1, 3));
  const std::vector<Condition> all = conditions_on_answers(protocol);
  for (int i = dice.between(0, 2); i > 0 && !all.empty(); --i) drawing.scenario.stays.push_back(dice.one_of(all));
  return drawing;
}

/// A night in which every answer agrees with the scenario, at the times that its promptness allows.
class DrawnNight {
 public:
  DrawnNight(Dice& dice, const Drawn& drawn, const Drawing& drawing)
      : dice_(dice),
        protocol_(drawn.protocol),
        child_(drawn.child),
        drawing_(drawing),
        space_(drawn.protocol, drawing.unit, drawing.scenario.stays) {
    const Moment begins = evening_from(dice);
    began_ = now_ = begins.utc;
    episode_ = begun(protocol_, child_, begins);
    if (episode_.ended) possible_ = false;  // over before anything could be told
    Answers known;
    for (const Condition& condition : drawing.scenario.stays) add_answer(known, FactId{subject_of(condition).index});
    for (const FactId fact : episode_.opening) add_answer(known, fact);
    if (!known.empty()) tell(Answered{known});
  }

  const Episode& episode() const { return episode_; }
  const Space& space() const { return space_; }
  bool possible() const { return possible_; }
  bool is_grave() const { return protocol_[episode_.step].urgency >= drawing_.scenario.call; }
  Duration lasted() const { return now_ - began_; }
  Duration entered() const { return episode_.entered - began_; }

  void go_on() {
    const Step& step = protocol_[episode_.step];
    const bool late = drawing_.answers == Promptness::late;
    if (!open_questions(protocol_, child_, episode_, now_).empty()) return answer(step, late);
    if (!step.wait) return finish(step);
    if (!episode_.wait_ends) return begin_wait(step, late);
    if (dice_.chance(15)) return say_something(step);
    if (late && dice_.chance(20)) return outcome(step);
    wait_until(*episode_.wait_ends);
  }

 private:
  template <class What>
  void tell(What what) {
    episode_ = folded(protocol_, child_, std::move(episode_), Event{Moment{now_, 0min}, std::move(what)});
  }
  void wait_until(Instant instant) {
    now_ = std::max(now_, instant);
    tell(Ticked{});
  }

  Duration time_in(ThresholdId id) const {
    const Scene here = scene_at(protocol_, child_, episode_, now_);
    return std::get<Duration>(value_in(protocol_[id], here.context));
  }

  // A value that agrees with the scenario for this child and hour: borders are drawn as often as what lies between.
  void add_answer(Answers& answers, FactId fact) {
    if (protocol_[fact].from_child) return;
    for (const auto& [told, value] : answers) {
      if (told == fact) return;
    }
    const Context context = scene_at(protocol_, child_, episode_, now_).context;
    std::vector<Value> values;
    if (const auto place = space_.place_of(fact)) {
      const std::vector<Stretch>& stretches = space_.variables()[*place].stretches;
      std::vector<bool> agreeing(stretches.size(), true);
      for (const Condition& condition : drawing_.scenario.stays) {
        if (!(subject_of(condition) == Subject{Subject::Kind::fact, fact.index})) continue;
        const std::vector<bool> takes = space_.taken_by(condition, *place, context);
        for (std::size_t i = 0; i < takes.size(); ++i) agreeing[i] = agreeing[i] && takes[i];
      }
      for (std::size_t i = 0; i < stretches.size(); ++i) {
        const auto value = agreeing[i] ? value_from(protocol_[fact], stretches[i], drawing_.unit) : std::nullopt;
        if (value) values.push_back(*value);
      }
      if (values.empty()) possible_ = false;
    }
    answers.push_back({fact, values.empty() ? Value{CantTell{}} : dice_.one_of(values)});
  }

  void answer(const Step& step, bool late) {
    if (step.wait && late && episode_.wait_ends) {
      const Instant last = *episode_.wait_ends + time_in(step.wait->overdue);
      if (dice_.chance(20)) return wait_until(last);
      now_ = std::max(now_, last - 1s * dice_.between(1, 60));
    }
    Answers answers;
    for (const FactId fact : open_questions(protocol_, child_, episode_, now_)) add_answer(answers, fact);
    tell(Answered{answers});
  }

  void say_something(const Step& step) {
    Answers answers;
    if (dice_.chance(50)) {
      for (const Ask& ask : step.asks) add_answer(answers, ask.fact);
    } else {
      const int asked = static_cast<int>(protocol_.facts.size());
      add_answer(answers, FactId{static_cast<std::uint16_t>(dice_.between(kChildFacts, asked - 1))});
    }
    if (dice_.chance(50)) return tell(GotWorse{answers});
    tell(Answered{answers});
  }

  void begin_wait(const Step& step, bool late) {
    if (dice_.chance(15)) return outcome(step);
    if (late && step.wait->start_within) {
      if (dice_.chance(20)) return say_something(step);
      return wait_until(episode_.entered + time_in(*step.wait->start_within));
    }
    tell(AllDone{});
    if (episode_.wait_ends || episode_.ended || &protocol_[episode_.step] != &step) return;
    if (step.wait->after) do_one(*step.wait->after, Outcome::given);
    if (!episode_.wait_ends && &protocol_[episode_.step] == &step) possible_ = false;
  }

  void do_one(ActionId id, Outcome outcome) {
    const Action& action = protocol_[id];
    if (!applies(scene_at(protocol_, child_, episode_, now_), action)) return;
    if (action.call)
      return tell(Called{action.call->contact, outcome == Outcome::given ? Outcome::reached : outcome, ""});
    tell(Done{{Deed{id, outcome, std::nullopt, std::nullopt}}});
  }

  void outcome(const Step& step) {
    if (step.actions.empty()) return;
    const ActionId id = dice_.one_of(step.actions);
    const std::vector<Outcome> outcomes = outcomes_to_cover(protocol_[id].kind);
    if (!outcomes.empty()) do_one(id, dice_.one_of(outcomes));
  }

  void finish(const Step& step) {
    if (dice_.chance(15)) return outcome(step);
    const int before = episode_.events;
    tell(AllDone{});
    for (const ActionId id : step.actions) {
      if (&protocol_[episode_.step] == &step && is_call(protocol_[id].kind)) do_one(id, Outcome::given);
    }
    if (&protocol_[episode_.step] == &step && !episode_.ended && episode_.events > before + 40) possible_ = false;
  }

  Dice& dice_;
  const Protocol& protocol_;
  const Child& child_;
  const Drawing& drawing_;
  Space space_;
  Episode episode_{};
  Instant began_{}, now_{};
  bool possible_ = true;
};

/// The same, where a night stops as soon as it comes to a step that is grave enough: one answer can lead over several
/// steps.
Drawn stopping_where_grave(Drawn drawn, Urgency call) {
  for (Step& step : drawn.protocol.steps) step.ends = step.ends || step.urgency >= call;
  return drawn;
}

/// What the episode has counted and done, whatever the child and the answers are.
Diagrams::Set counted_in(const Space& space, Diagrams& diagrams, const Episode& episode) {
  Diagrams::Set set = Diagrams::kAll;
  for (std::size_t v = 0; v < space.variables().size(); ++v) {
    const Space::Variable& variable = space.variables()[v];
    if (variable.subject.kind != Subject::Kind::counter) continue;
    std::vector<bool> takes(variable.stretches.size(), false);
    const auto counted = static_cast<std::size_t>(episode.counted[variable.subject.index]);
    takes[std::min(counted, takes.size() - 1)] = true;
    set = diagrams.both(set, diagrams.where(v, takes));
  }
  return set;
}

struct Tally {
  long protocols = 0, given_up = 0, within = 0, nights = 0, grave = 0, as_late = 0, places = 0;
};

}  // namespace

BOOST_AUTO_TEST_SUITE(nights_drawn_by_lot)

BOOST_AUTO_TEST_CASE(no_night_is_later_than_the_worst_time_or_ends_otherwise) {
  Tally tally;
  for (std::uint64_t seed = 1; seed <= kProtocolsDrawn; ++seed) {
    const Drawn whole = drawn_from(seed, true);
    Dice dice(seed * 7919);
    const Drawing drawing = drawing_from(dice, whole.protocol);
    const Drawn drawn = stopping_where_grave(whole, drawing.scenario.call);
    const WorstTime worst = worst_time(whole.protocol, drawing.scenario, drawing.answers, drawing.unit, kMostFollowed);
    ++tally.protocols;
    if (worst.verdict == WorstTime::Verdict::too_large) ++tally.given_up;
    if (worst.verdict != WorstTime::Verdict::within) continue;
    ++tally.within;
    for (int night = 0; night < kNightsEach; ++night) {
      DrawnNight walked(dice, drawn, drawing);
      for (int events = 0; events < 120 && walked.possible() && !walked.is_grave(); ++events) {
        if (walked.episode().ended) break;
        walked.go_on();
      }
      if (!walked.possible()) continue;
      ++tally.nights;
      BOOST_TEST_CONTEXT("protocol " << seed << ", night " << night << "\n" << described(drawn.protocol)) {
        if (walked.is_grave()) {
          ++tally.grave;
          BOOST_TEST((walked.entered() <= worst.most));
          if (worst.most - walked.entered() <= 1min) ++tally.as_late;
        } else {
          BOOST_TEST(!walked.episode().ended);
          BOOST_TEST((walked.lasted() <= worst.most));
        }
      }
    }
  }
  BOOST_TEST(tally.within > tally.protocols / 8);
  BOOST_TEST(tally.grave > tally.nights / 2);
  BOOST_TEST(tally.as_late > 0);
  std::cout << tally.protocols << " protocols and scenarios, " << tally.within << " with a worst time, "
            << tally.given_up << " given up; " << tally.nights << " nights, " << tally.grave << " came to the call, "
            << tally.as_late << " as late as can be\n";
}

BOOST_AUTO_TEST_CASE(no_night_comes_where_nobody_is_said_to_come) {
  Tally tally;
  for (std::uint64_t seed = 1; seed <= kProtocolsDrawn / 4; ++seed) {
    const Drawn drawn = drawn_from(seed, true);
    const Protocol& protocol = drawn.protocol;
    Dice dice(seed * 104729);
    Drawing drawing{{{}, Urgency::emergency}, Promptness::late, GlucoseUnit::mg_per_dl};
    DrawnNight first(dice, drawn, drawing);
    const Space& space = first.space();
    Diagrams diagrams(space.sizes());
    Program program(space, diagrams, {{}, Promptness::late});
    const Nights nights(space, diagrams, program, protocol.start, std::vector<bool>(protocol.steps.size(), false),
                        false, kMostFollowed);
    ++tally.protocols;
    if (nights.gave_up()) {
      ++tally.given_up;
      continue;
    }
    for (int night = 0; night < kNightsEach; ++night) {
      DrawnNight walked(dice, drawn, drawing);
      for (int events = 0; events < 60 && walked.possible() && !walked.episode().ended; ++events) {
        walked.go_on();
        const StepId step = walked.episode().step;
        const Diagrams::Set here = counted_in(space, diagrams, walked.episode());
        ++tally.places;
        BOOST_TEST_CONTEXT("protocol " << seed << ", night " << night << ", step " << protocol[step].name << "\n"
                                       << described(protocol)) {
          BOOST_TEST(diagrams.meets(program.with_deeds(nights.reached(step), step), here));
        }
      }
    }
  }
  BOOST_TEST(tally.given_up < tally.protocols / 2);
  std::cout << tally.protocols << " protocols, " << tally.given_up << " given up; " << tally.places << " places\n";
}

BOOST_AUTO_TEST_SUITE_END()
