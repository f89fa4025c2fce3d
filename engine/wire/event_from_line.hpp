#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "episode/event.hpp"
#include "protocol/child.hpp"
#include "protocol/protocol.hpp"

namespace rushlight {

/// Reads one line of events (docs/wire-format.md): what `walk --json` is told and what the journal holds.
/// Strict: one event a line, the time with its offset, every word known, every number in its unit. A line that is
/// refused says everything that is wrong with it; nothing of it counts. `file` and `line_number` name the place in
/// findings.
std::variant<Event, std::vector<Finding>> event_from_line(std::string_view line, const Protocol& protocol,
                                                          const Child& child, const std::string& file = "event",
                                                          std::uint32_t line_number = 1);

}  // namespace rushlight
