#include <algorithm>

#include "verify/dangers.hpp"
#include "verify/properties.hpp"

namespace rushlight {

namespace {

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
    checking.error(protocol[*fact].where,
                   SignMissing{std::string(danger.child), std::string(danger.fact), std::string(danger.answer)});
  }
}

void awake_is_asked_first(Checking& checking) {
  const Protocol& protocol = checking.protocol;
  const auto awake = protocol.fact_named("awake");
  if (!awake) return;
  const bool asked =
      std::any_of(protocol.opening.begin(), protocol.opening.end(), [&](const Ask& ask) { return ask.fact == *awake; });
  if (!asked) checking.error(protocol[*awake].where, OpeningLacks{"awake"});
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
  awake_is_asked_first(checking);
  no_deed_answers_for_the_child(checking);
}

}  // namespace rushlight
