#pragma once

#include <vector>

#include "episode/event.hpp"
#include "protocol/protocol.hpp"
#include "wire/json_tree.hpp"

namespace rushlight {

/// What became of an action, or of several in a list: {"action":"sugar","outcome":"given","amount":"7 g","when":"..."}.
/// `at` is the time of the event: what was given cannot be given after it.
std::vector<Deed> deeds_from_json(const JsonNode& node, const Protocol& protocol, const std::optional<Moment>& at,
                                  std::vector<Finding>& findings);

/// A time with its offset: "2026-03-01T02:10:00-05:00".
std::optional<Moment> moment_from_json(const JsonNode& node, const std::string& what, std::vector<Finding>& findings);

}  // namespace rushlight
