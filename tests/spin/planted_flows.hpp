#pragma once

#include "tests/naive_walk/generate.hpp"
#include "tests/spin/promela.hpp"

// Flows drawn by lot, with and without a fault, and what is known of each because of how it was made.

namespace rushlight::tests {

enum class Planted : std::uint8_t {
  nothing,
  no_limit,         // the rule that ends the rounds is left out
  reset_each_time,  // the way back sets the counter to none
  limit_for_some,   // the limit ends the rounds of those only who gave one answer
  no_wait,          // one way back asks nothing anew and waits for nothing
  answered_before,  // a step that only a contrary answer to a question just answered leads to
  beyond_limit,     // a step that only a count leads to that the limit never lets come
  orphan,           // a step that no way leads to
};
inline constexpr int kPlantedKinds = 8;
std::string_view name_of(Planted planted);

/// Rounds of questions, a treatment with a wait, and a limit that calls.
struct PlantedFlow {
  Flow flow;
  Planted planted;
  bool goes_round = false;            // for ever
  bool round_without_wait = false;    // a way round passes no wait and asks nothing anew
  std::optional<StepId> unreachable;  // the only one
};
PlantedFlow planted_flow(naive::Dice& dice, Planted planted);

/// The benchmark's: each round asks so many yes-no questions, carries all answers on, and reads them one by one with
/// the last first; the first yes decides how soon is looked again, and a count of rounds calls.
Flow carrying_flow(std::size_t facts, int rounds);

}  // namespace rushlight::tests
