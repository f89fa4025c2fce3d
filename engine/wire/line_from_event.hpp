#pragma once

#include <string>

#include "episode/event.hpp"
#include "protocol/protocol.hpp"

namespace rushlight {

/// The event as one line, without a line end: what event_from_line reads back as the same event.
/// Holds ids, never sentences, so that a journal can be shown in another language.
std::string line_from_event(const Event& event, const Protocol& protocol);

}  // namespace rushlight
