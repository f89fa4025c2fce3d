#include "verify/counterparts.hpp"

#include <algorithm>

#include "verify/other_words.hpp"

namespace rushlight {

bool same_value(const Protocol& protocol, ThresholdId one, ThresholdId other) {
  const std::vector<Band>&a = protocol[one].bands, &b = protocol[other].bands;
  const auto same = [](const Band& x, const Band& y) {
    return x.age_from == y.age_from && x.age_up_to == y.age_up_to && x.weight_from == y.weight_from &&
           x.weight_up_to == y.weight_up_to && x.clock_from == y.clock_from && x.clock_up_to == y.clock_up_to &&
           x.value == y.value;
  };
  return std::equal(a.begin(), a.end(), b.begin(), b.end(), same);
}

bool same_words(const Protocol& protocol, const Text& one, const Text& other) {
  for (int language = 0; language < kLanguages; ++language) {
    if (!reads_the_same(protocol, one.line[language], protocol, other.line[language])) return false;
  }
  return true;
}

std::optional<ActionId> counterpart(const SideBySide& sides, ActionId was, StepId now) {
  const Protocol& protocol = sides.both;
  const Action& action = protocol[was];
  const std::vector<ActionId>& others = protocol[now].actions;
  std::optional<ActionId> alike;
  std::size_t of_kind = 0;
  for (const ActionId other : others) {
    if (protocol[other].kind != action.kind) continue;
    if (protocol[other].name == action.name) return other;
    ++of_kind;
    if (!alike || same_words(protocol, protocol[other].text, action.text)) alike = other;
  }
  if (!alike) return std::nullopt;
  // One that stands for another by its name is not free.
  const auto& own = protocol[action.step].actions;
  const auto named_as = [&](ActionId mine) { return protocol[mine].name == protocol[*alike].name; };
  if (std::any_of(own.begin(), own.end(), named_as)) return std::nullopt;
  const auto mine_of_kind =
      std::count_if(own.begin(), own.end(), [&](ActionId mine) { return protocol[mine].kind == action.kind; });
  const bool same_text = same_words(protocol, protocol[*alike].text, action.text);
  return same_text || (of_kind == 1 && mine_of_kind == 1) ? alike : std::nullopt;
}

bool look_alike(const SideBySide& sides, StepId was, StepId now) {
  const Protocol& protocol = sides.both;
  const Step &a = protocol[was], &b = protocol[now];
  if (a.urgency != b.urgency || a.ends != b.ends || a.wait.has_value() != b.wait.has_value() ||
      a.actions.size() != b.actions.size() || !same_words(protocol, a.headline, b.headline))
    return false;
  if (a.wait && !same_value(protocol, a.wait->lasts, b.wait->lasts)) return false;
  return std::all_of(a.actions.begin(), a.actions.end(), [&](ActionId one) {
    const auto other = counterpart(sides, one, now);
    return other && same_words(protocol, protocol[one].text, protocol[*other].text) &&
           protocol[one].dose.has_value() == protocol[*other].dose.has_value() &&
           (!protocol[one].dose || protocol[*protocol[one].dose].name == protocol[*protocol[*other].dose].name);
  });
}

namespace {

const std::string& name(const SideBySide& sides, StepId step) { return sides.both[step].name; }

bool has_step(const SideBySide& sides, bool now, const std::string& wanted) {
  const std::size_t first = now ? sides.now_steps : 0;
  const std::size_t end = now ? sides.both.steps.size() : sides.now_steps;
  for (std::size_t i = first; i < end; ++i) {
    if (sides.both.steps[i].name == wanted) return true;
  }
  return false;
}

bool is_renamed(const SideBySide& sides, StepId was, StepId now) {
  if (has_step(sides, true, name(sides, was)) || has_step(sides, false, name(sides, now))) return false;
  const Step &a = sides.both[was], &b = sides.both[now];
  if (a.ends != b.ends || a.wait.has_value() != b.wait.has_value() || a.actions.size() != b.actions.size())
    return false;
  return std::all_of(a.actions.begin(), a.actions.end(),
                     [&](ActionId action) { return counterpart(sides, action, now).has_value(); });
}

}  // namespace

bool stay_together(const SideBySide& sides, StepId was, StepId now) {
  return name(sides, was) == name(sides, now) || is_renamed(sides, was, now) || look_alike(sides, was, now);
}

bool is_put_in(const SideBySide& sides, StepId step, StepId beside) {
  const Step& put = sides.both[step];
  const bool in_other = !sides.is_now(step);
  return !put.wait && !put.ends && !put.ends_visit && !has_step(sides, in_other, name(sides, step)) &&
         has_step(sides, in_other, name(sides, beside));
}

}  // namespace rushlight
