#pragma once

#include <string>
#include <vector>

#include "verify/worst_time.hpp"

// Protocols as Promela, for SPIN to judge the proofs about nights.
//
// Each flow is one proctype: its steps are labels, and what one can come to from a step is one atomic choice. It is
// written from the Protocol, by the sentences that engine/verify/program.hpp gives for what a program may do, and
// shares no code with it: SPIN walks single combinations and forgets nothing that the sentences do not let it forget,
// where the proof follows sets and forgets what nobody reads. So what is judged is the algebra of the sets, what they
// forget and merge, the order of rules and watch rules, counters and times. Whether the sentences are wide enough for
// the engine is judged elsewhere (tests/naive_walk).
//
// A value is chosen when a rule first reads it. That is exact: what nobody has read yet is still any value. An answer
// to a question that no step takes back from before (`fresh`) is forgotten with its step.

namespace rushlight::tests {

/// A protocol and what stays true in it, in one unit; nobody looks further than a step as grave as `call`.
struct Flow {
  std::string name;
  Protocol protocol;
  Scenario scenario;
  GlucoseUnit unit = GlucoseUnit::mg_per_dl;
  /// Counters that may stand anywhere wherever they are read; nobody counts them.
  std::vector<CounterId> loose = {};
  /// When not empty: begins in any of these steps with any counts, and is not followed out of them.
  std::vector<StepId> within = {};
  /// A visit to a protocol that is not at hand comes back, and everything may be told anew.
  bool comes_back = false;
  /// An answer that no step on any way takes back before it is asked anew is forgotten.
  bool forgets_unread = false;
};

/// The words for what a flow may come to: "enters treat", "treat, rule 2".
std::string entering(const Protocol& protocol, StepId step);
std::string moving(const Protocol& protocol, StepId step, Leading::By by, std::uint16_t index, Outcome outcome);

/// The number by which one rule can be left out when a flow is walked.
int left_out(StepId step, std::size_t rule);

struct Promela {
  std::string text;
  std::vector<std::vector<std::string>> events;  // by flow: what can be seen, by its number
};

Promela promela_of(const std::vector<Flow>& flows);

}  // namespace rushlight::tests
