#pragma once

#include <iosfwd>
#include <optional>
#include <set>
#include <string>

#include "tests/spin/pan.hpp"

// What the proofs and SPIN say of one flow, in the same words.

namespace rushlight::tests {

/// Every step and way that is written in a protocol, in the words of promela.hpp.
std::set<std::string> ways_of(const Protocol& protocol);

/// Everything the proof says may happen in a flow, in the words of promela.hpp; nothing when it gave up.
std::optional<std::set<std::string>> proven_events(const Flow& flow, Promptness answers);
std::set<std::string> seen_events(const Pan& pan, std::size_t flow, Promptness answers);

/// Whether every night comes to a step that is grave enough, and after how long at most.
struct NightVerdict {
  WorstTime::Verdict verdict;
  Duration most{0};  // where every night comes there
  friend bool operator==(const NightVerdict&, const NightVerdict&) = default;
};
std::ostream& operator<<(std::ostream& out, const NightVerdict& verdict);

NightVerdict proven_verdict(const Flow& flow, Promptness answers);
/// Nights are followed for two days; throws when one that comes to the call at last is longer.
NightVerdict seen_verdict(const Pan& pan, std::size_t flow, Promptness answers);

/// Whether somebody can go round for ever without a watch rule; with a rule left out when one is named.
bool sees_round(const Pan& pan, std::size_t flow, int left_out = 0);
/// The same by ways that pass no wait, from any step and with any counts.
bool sees_round_without_wait(const Pan& pan, std::size_t flow);

/// The steps that lead to one another, each group with the counters that nothing in it reads let loose: what goes round
/// for ever stays in one of them.
std::vector<Flow> loop_flows(const Protocol& protocol, const std::string& name);

}  // namespace rushlight::tests
