#pragma once

#include <cstdint>
#include <vector>

#include "protocol/protocol.hpp"

// For engine/verify and engine/picture: where the steps of a protocol lead.

namespace rushlight {

/// One way from a step to a step.
struct Way {
  enum class Kind : std::uint8_t { rule, outcome, overdue } kind;
  StepId from, to;
  std::uint16_t rule;  // its place in the step, for a rule
  Where where;
};

/// A visit to another protocol is a way to the step it comes back to. Every way but those of the watch: a watch rule fires because the child got worse, not because of where one was, so
/// it is no part of a loop of the protocol's own; the step it leads to handles it, so it cannot fire twice in a row.
struct Graph {
  std::vector<Way> ways;  // by the step they leave
};

Graph graph_of(const Protocol& protocol);

/// Whether somebody has to wait, or to answer anew, before this way is taken.
bool passes_a_wait(const Protocol& protocol, const Way& way);

/// Groups of steps that lead to one another over these ways (places in graph.ways); a step alone counts only when it
/// leads to itself. Each group is in the order of the file, and the groups are too.
std::vector<std::vector<StepId>> loops_over(const Protocol& protocol, const Graph& graph,
                                            const std::vector<std::size_t>& ways);

/// The shortest way round from the first step of the group back to it, as places in graph.ways.
std::vector<std::size_t> shortest_round(const Protocol& protocol, const Graph& graph,
                                        const std::vector<std::size_t>& ways, StepId start);

}  // namespace rushlight
