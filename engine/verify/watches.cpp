#include <algorithm>
#include <set>
#include <string_view>

#include "verify/dangers.hpp"
#include "verify/properties.hpp"

namespace rushlight {

namespace {

/// The whole of what has to be watched of a question.
std::string condition_for(std::string_view fact) {
  std::string answers;
  for (const Danger& danger : kDangers) {
    if (danger.fact == fact) answers += (answers.empty() ? "" : " ") + std::string(danger.answer);
  }
  return "<if fact=\"" + std::string(fact) + "\" is=\"" + answers + "\"/>";
}

// Whatever else is true: a rule that asks for anything beside the sign, or for news of it, may stay silent.
bool fires_on(const Watch& watch, FactId fact, std::uint64_t bit) {
  return !watch.told && !watch.when.empty() && std::all_of(watch.when.begin(), watch.when.end(), [&](const Condition& condition) {
    const auto* test = std::get_if<Is>(&condition.test);
    return test != nullptr && test->fact == fact && (test->options & bit) != 0;
  });
}

/// The watch that reads the question, and does not fire on the whole of it.
std::optional<Because> watched_in_part(const Protocol& protocol, FactId fact) {
  for (const Watch& watch : protocol.watch) {
    for (const Condition& condition : watch.when) {
      const auto* test = std::get_if<Is>(&condition.test);
      if (test == nullptr || !(test->fact == fact)) continue;
      return Because{"watch `" + watch.name + "` takes only a part of it", watch.where};
    }
  }
  return std::nullopt;
}

// What nobody watches of one question is one finding: the answer itself before "can't tell".
void dangers_have_a_watch(Checking& checking) {
  const Protocol& protocol = checking.protocol;
  std::string_view told;
  for (const Danger& danger : kDangers) {
    if (danger.fact == told) continue;
    const auto fact = protocol.fact_named(danger.fact);
    if (!fact) {
      if (std::find(std::begin(kAlwaysAsked), std::end(kAlwaysAsked), danger.fact) == std::end(kAlwaysAsked)) continue;
      told = danger.fact;
      checking.error(protocol.where, WatchMissing{std::string(danger.child), condition_for(danger.fact)},
                     Because{"no question is called `" + std::string(danger.fact) + "`", {}});
      continue;
    }
    const std::uint64_t bit = bit_of(protocol[*fact], danger.answer);
    const bool watched = std::any_of(protocol.watch.begin(), protocol.watch.end(),
                                     [&](const Watch& watch) { return fires_on(watch, *fact, bit); });
    if (watched) continue;
    told = danger.fact;
    checking.error(protocol[*fact].where, WatchMissing{std::string(danger.child), condition_for(danger.fact)},
                   watched_in_part(protocol, *fact));
  }
}

// A watch is looked at when something is told or a deadline passes: one that reads the clock alone would be late.
void watches_need_more_than_a_clock(Checking& checking) {
  for (const Watch& watch : checking.protocol.watch) {
    const bool by_time_alone = std::all_of(watch.when.begin(), watch.when.end(), [](const Condition& condition) {
      return std::holds_alternative<WithinClock>(condition.test);
    });
    if (by_time_alone) checking.error(watch.where, WatchByTimeAlone{watch.name});
  }
}

/// The name of the gravest step that handles the watch; empty when none does.
std::string gravest_that_handles(const Protocol& protocol, WatchId watch) {
  const Step* gravest = nullptr;
  for (const Step& step : protocol.steps) {
    if (handles(step, watch) && (gravest == nullptr || gravest->urgency < step.urgency)) gravest = &step;
  }
  return gravest == nullptr ? "" : gravest->name;
}

// Told once a step; a step that is calmer than the target of its watch has been told already.
void dangers_are_emergencies(Checking& checking) {
  const Protocol& protocol = checking.protocol;
  for (const Step& step : protocol.steps) {
    if (step.urgency == Urgency::emergency) continue;
    for (std::size_t i = 0; i < protocol.watch.size(); ++i) {
      const WatchId id{static_cast<std::uint16_t>(i)};
      const Watch& watch = protocol[id];
      const bool target = &protocol[watch.go] == &step;
      if (!target && (!handles(step, id) || step.urgency < protocol[watch.go].urgency)) continue;
      if (danger_of(protocol, watch) == nullptr) continue;
      checking.error(step.where, TooCalm{step.name, watch.name},
                     Because{"watch `" + watch.name + "` looks out for it", watch.where});
      break;
    }
  }
}

}  // namespace

void danger_signs_are_watched(Checking& checking) {
  const Protocol& protocol = checking.protocol;
  dangers_have_a_watch(checking);
  std::set<const Step*> already;  // of a step that is too calm one watch is told
  for (std::size_t i = 0; i < protocol.watch.size(); ++i) {
    const WatchId id{static_cast<std::uint16_t>(i)};
    const Watch& watch = protocol[id];
    const Step& target = protocol[watch.go];
    if (!handles(target, id)) {
      checking.error(watch.where, WatchNotHandled{target.name, watch.name, gravest_that_handles(protocol, id)},
                     Because{"step `" + target.name + "`", target.where});
    }
    for (const Step& step : protocol.steps) {
      if (!handles(step, id) || step.urgency >= target.urgency || already.count(&step) > 0) continue;
      already.insert(&step);
      checking.error(
          step.where, CalmerThanWatch{step.name, watch.name},
          Because{"the watch leads to step `" + target.name + "`, which is " + std::string(name_of(target.urgency)),
                  target.where});
    }
  }
  dangers_are_emergencies(checking);
  watches_need_more_than_a_clock(checking);
}

}  // namespace rushlight
