#include "verify/endings.hpp"

#include <algorithm>

#include "episode/phrases.hpp"
#include "finding/quoted.hpp"
#include "verify/in_words.hpp"

namespace rushlight {
namespace {

Urgency urgency_of(const Protocol& both, const Ending& ending, StepId from) {
  return both[ending.kind == Ending::Kind::step ? ending.step : from].urgency;
}

bool is_of_another_protocol(const Ending& ending) {
  return ending.kind == Ending::Kind::visit || ending.kind == Ending::Kind::hand_over;
}

}  // namespace

Difference::Place place_of(const Protocol& both, const Occasion& occasion) {
  const std::string step = both[occasion.from.was].name;
  switch (occasion.kind) {
    case Occasion::Kind::begins:
      return {"at the start", ""};
    case Occasion::Kind::answers:
      return {"after", step};
    case Occasion::Kind::known:
      return {"with answers known from before, after", step};
    case Occasion::Kind::early:
      return {"told during the wait of", step};
    case Occasion::Kind::outcome:
      return {quoted(both[occasion.action].name) + " " + std::string(name_of(occasion.outcome)) + " in", step};
    case Occasion::Kind::nobody_answers:
      return {"nobody answers in", step};
    case Occasion::Kind::worse:
      return {"told at any time in", step};
    case Occasion::Kind::after_visit:
      return {"back from the other protocol, after", step};
  }
  return {"in", step};
}

std::string words_of(const Protocol& both, const Ending& ending) {
  switch (ending.kind) {
    case Ending::Kind::step: {
      const Step& step = both[ending.step];
      return quoted(step.name) + ", " + shown_as(step.urgency, Language::en) + ": " + as_written(both, step.headline);
    }
    case Ending::Kind::visit:
      return "walks " + quoted(ending.protocol) + " and comes back to " + quoted(both[ending.step].name);
    case Ending::Kind::hand_over:
      return "goes over to " + quoted(ending.protocol);
    case Ending::Kind::stays:
      return "nothing: the step goes on";
    case Ending::Kind::nothing:
    case Ending::Kind::here:
      break;
  }
  return "no rule";
}

bool gives(const Protocol& both, const Ending& ending) {
  if (ending.kind == Ending::Kind::stays || ending.kind == Ending::Kind::nothing) return false;
  if (ending.kind != Ending::Kind::step) return true;
  const std::vector<ActionId>& actions = both[ending.step].actions;
  return std::any_of(actions.begin(), actions.end(), [&](ActionId id) {
    const ActionKind kind = both[id].kind;
    return is_call(kind) || kind == ActionKind::by_mouth || kind == ActionKind::glucagon ||
           kind == ActionKind::insulin || kind == ActionKind::fluid;
  });
}

Difference::Turn turn_of(const Protocol& both, const Together& from, const Ending& was, const Ending& now) {
  if (now.kind == Ending::Kind::nothing) return Difference::Turn::calmer;
  const Urgency before = urgency_of(both, was, from.was), after = urgency_of(both, now, from.now);
  const bool known = !is_of_another_protocol(was) && !is_of_another_protocol(now);
  if (known && after < before) return Difference::Turn::calmer;
  if (known && after > before) return Difference::Turn::graver;
  return gives(both, was) && !gives(both, now) ? Difference::Turn::less : Difference::Turn::otherwise;
}

int falls_in(const Protocol& both, const Together& from, const Ending& was, const Ending& now) {
  const auto before = static_cast<int>(urgency_of(both, was, from.was));
  if (now.kind == Ending::Kind::nothing) return before + 1;
  return before - static_cast<int>(urgency_of(both, now, from.now));
}

}  // namespace rushlight
