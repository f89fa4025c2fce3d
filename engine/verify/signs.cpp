#include <algorithm>

#include "verify/dangers.hpp"
#include "verify/properties.hpp"

namespace rushlight {

namespace {

/// In the list that lacks it, which is where something is to be written: at its line for the same question, or at its
/// first; at the question when there is no list.
template <class List>
void tell_where_it_lacks(Checking& checking, const List& list, FactId id, Kind kind) {
  const Fact& fact = checking.protocol[id];
  if (list.empty()) return checking.error(fact.where, std::move(kind));
  const auto same = std::find_if(list.begin(), list.end(), [&](const auto& line) { return line.fact == id; });
  checking.error(same == list.end() ? list.front().where : same->where, std::move(kind),
                 Because{"the question `" + fact.name + "`", fact.where});
}

/// Where a caregiver says during a wait that it got worse.
void every_danger_is_a_sign(Checking& checking) {
  const Protocol& protocol = checking.protocol;
  for (const Danger& danger : kDangers) {
    if (danger.answer == "unknown") continue;
    const auto fact = protocol.fact_named(danger.fact);
    if (!fact || bit_of(protocol[*fact], danger.answer) == 0) continue;  // told where the question is looked for
    const bool listed = std::any_of(protocol.worse.begin(), protocol.worse.end(), [&](const Sign& sign) {
      return sign.fact == *fact && std::uint64_t{1} << sign.option == bit_of(protocol[*fact], danger.answer);
    });
    if (listed) continue;
    tell_where_it_lacks(checking, protocol.worse, *fact,
                        SignMissing{std::string(danger.child), std::string(danger.fact), std::string(danger.answer)});
  }
}

/// Also when somebody takes the child over.
void first_is_asked(Checking& checking, std::string_view name) {
  const Protocol& protocol = checking.protocol;
  const auto fact = protocol.fact_named(name);
  if (!fact) return;
  const bool asked =
      std::any_of(protocol.opening.begin(), protocol.opening.end(), [&](const Ask& ask) { return ask.fact == *fact; });
  if (asked) return;
  tell_where_it_lacks(checking, protocol.opening, *fact, OpeningLacks{std::string(name)});
}

bool can_be_said(const Protocol& protocol, const Is& test) {
  return std::any_of(protocol.worse.begin(), protocol.worse.end(), [&](const Sign& sign) {
    return sign.fact == test.fact && (test.options >> sign.option & 1U) != 0;
  });
}

/// The steps that are come to while this watch never fires.
std::vector<bool> steps_without(const Protocol& protocol, const Graph& graph, std::size_t watch) {
  std::vector<bool> come_to(protocol.steps.size(), false);
  std::vector<StepId> left{protocol.start};
  for (std::size_t i = 0; i < protocol.watch.size(); ++i) {
    if (i != watch) left.push_back(protocol.watch[i].go);
  }
  while (!left.empty()) {
    const StepId step = left.back();
    left.pop_back();
    if (come_to[step.index]) continue;
    come_to[step.index] = true;
    const auto before = [](const Way& way, std::uint16_t from) { return way.from.index < from; };
    for (auto way = std::lower_bound(graph.ways.begin(), graph.ways.end(), step.index, before);
         way != graph.ways.end() && way->from == step; ++way)
      left.push_back(way->to);
  }
  return come_to;
}

/// Somewhere where the watch has not led to, or by the menu about what the clinic said on the phone.
bool is_asked(const Protocol& protocol, const Graph& graph, std::size_t watch, FactId fact) {
  const auto asks = [&](const std::vector<Ask>& list) {
    return std::any_of(list.begin(), list.end(), [&](const Ask& ask) { return ask.fact == fact; });
  };
  if (protocol[fact].name == kClinicSaid || asks(protocol.opening)) return true;
  const std::vector<bool> come_to = steps_without(protocol, graph, watch);
  for (std::size_t i = 0; i < protocol.steps.size(); ++i) {
    if (come_to[i] && asks(protocol.steps[i].asks)) return true;
  }
  return false;
}

// One line a question: whoever sees that the breathing is deep can say so, and the question asks the rest. The dangers
// that are the same for all have been looked at answer by answer; news that is asked somewhere, and what is no choice,
// is told as an answer.
void every_watch_can_be_told(Checking& checking) {
  const Protocol& protocol = checking.protocol;
  for (std::size_t place = 0; place < protocol.watch.size(); ++place) {
    const Watch& watch = protocol.watch[place];
    if (danger_of(protocol, watch) != nullptr) continue;
    const Is* unsaid = nullptr;
    bool said = false;
    for (const Condition& condition : watch.when) {
      const auto* test = std::get_if<Is>(&condition.test);
      if (test == nullptr || protocol[test->fact].from_child || (test->options & ~kUnknownBit) == 0) continue;
      if (watch.told && is_asked(protocol, checking.graph, place, test->fact)) continue;
      if (can_be_said(protocol, *test))
        said = true;
      else if (unsaid == nullptr)
        unsaid = test;
    }
    if (said || unsaid == nullptr) continue;
    const Fact& fact = protocol[unsaid->fact];
    std::size_t gravest = 0;  // the last one listed
    for (std::size_t i = 0; i < fact.options.size(); ++i) {
      if ((unsaid->options >> i & 1U) != 0) gravest = i;
    }
    checking.error(watch.where, WatchUntold{watch.name, fact.name, fact.options[gravest].name},
                   Because{"the question `" + fact.name + "`", fact.where});
  }
}

/// A sign is there until somebody says that it is over; a number is true of the moment in which it was read.
void no_watch_reads_old_numbers(Checking& checking) {
  const Protocol& protocol = checking.protocol;
  for (const Watch& watch : protocol.watch) {
    if (watch.told) continue;
    for (const Condition& condition : watch.when) {
      const auto* test = std::get_if<Compares>(&condition.test);
      if (test == nullptr || protocol[test->fact].from_child) continue;
      checking.error(watch.where, WatchReadsNumber{watch.name, protocol[test->fact].name});
      break;
    }
  }
}

void every_sign_leads_somewhere(Checking& checking) {
  const Protocol& protocol = checking.protocol;
  for (const Sign& sign : protocol.worse) {
    const bool watched = std::any_of(protocol.watch.begin(), protocol.watch.end(), [&](const Watch& watch) {
      return std::any_of(watch.when.begin(), watch.when.end(), [&](const Condition& condition) {
        const auto* test = std::get_if<Is>(&condition.test);
        return test != nullptr && test->fact == sign.fact && (test->options >> sign.option & 1U) != 0;
      });
    });
    const Fact& fact = protocol[sign.fact];
    const std::string& answer = fact.options[sign.option].name;
    const bool is_danger = std::any_of(std::begin(kDangers), std::end(kDangers), [&](const Danger& danger) {
      return danger.fact == fact.name && danger.answer == answer;  // its missing watch is told at its question
    });
    if (!watched && !is_danger) checking.error(sign.where, SignUnwatched{fact.name, answer});
  }
}

// What is done for a child says nothing about how the child is: only somebody who looks does.
void no_deed_answers_for_the_child(Checking& checking) {
  const Protocol& protocol = checking.protocol;
  for (const Action& action : protocol.actions) {
    if (!action.records) continue;
    const std::string& name = protocol[action.records->fact].name;
    const bool danger =
        std::any_of(std::begin(kDangers), std::end(kDangers), [&](const Danger& each) { return each.fact == name; });
    if (danger) checking.error(action.where, DeedAnswers{action.name, name});
  }
}

}  // namespace

void danger_can_be_told_at_any_time(Checking& checking) {
  every_danger_is_a_sign(checking);
  first_is_asked(checking, "awake");
  first_is_asked(checking, "already-given");
  every_watch_can_be_told(checking);
  no_watch_reads_old_numbers(checking);
  every_sign_leads_somewhere(checking);
  no_deed_answers_for_the_child(checking);
}

}  // namespace rushlight
