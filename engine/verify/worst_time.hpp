#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "protocol/protocol.hpp"
#include "verify/nights.hpp"

namespace rushlight {

/// A child for whom some things stay as they are all night, and what has to come of it.
struct Scenario {
  Conditions stays;  // every answer to these questions, and the child file, agrees with them
  Urgency call;      // a step at least as grave has to be reached
};

/// One step of a night, and what led on from it.
struct NightStep {
  struct Answer {
    Subject subject;
    Stretch stretch;
  };
  StepId step;
  Duration at;  // since the episode began
  Leading::By by = Leading::By::rule;
  std::uint16_t index = 0;  // as in Leading
  Outcome outcome = Outcome::given;
  std::vector<Answer> answers;  // that decide; for the first step what the child file says too
};

struct WorstTime {
  enum class Verdict : std::uint8_t {
    within,      // every night comes to such a step, after `most` at the longest
    ends,        // a night ends calmer than that
    leaves,      // a night goes on in another protocol, which was not looked at
    goes_round,  // a night goes on for ever without coming to one
    too_large,   // given up: nothing is said
  } verdict;
  Duration most{0};              // to the step that is grave enough
  StepId step{0};                // that step; where the night ends, leaves or goes round for the other verdicts
  std::vector<NightStep> night;  // one that attains it
};

/// No protocol of a clinic comes near: the sets of this program take a few hundred.
inline constexpr std::size_t kMostVisits = 40'000;

/// How long it takes at most until a step of at least the urgency is entered, over every night in which these things
/// stay as they are; in one glucose unit. The sum of waits, and with late answers of start and overdue allowances:
/// answering counts no time. Every walk of the engine is among the nights looked at (see Program for those that are
/// looked at besides), so no child is later than `most`; whether a child can be that late is what replaying the night
/// tells.
WorstTime worst_time(const Protocol& protocol, const Scenario& scenario, Promptness answers, GlucoseUnit unit,
                     std::size_t most_visits = kMostVisits);

}  // namespace rushlight
