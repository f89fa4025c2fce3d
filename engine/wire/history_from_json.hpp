#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "episode/history.hpp"
#include "wire/json_tree.hpp"

namespace rushlight {

/// The `past` of an event: `readings` with `at` and `glucose`, `treated` and `insulin` as times, none of them after
/// `told`, the moment of the event.
History history_from_json(const JsonNode& node, GlucoseUnit usual, const std::optional<Moment>& told,
                          std::vector<Finding>& findings);

/// A reading of the past as an event holds it; LO and HI keep their unit ("LO mg/dL").
std::string text_from_history(const Glucose& reading);

/// Adds what the lines of one earlier episode tell: readings (as corrected), what was given against a low, insulin.
/// A line that cannot be read is passed over: an old night never holds up this one.
void add_lines_to_history(History& history, const std::vector<std::string>& lines, GlucoseUnit usual);

/// Only what lies within the last two weeks before `now`, oldest first. What a clock that has been set back since puts
/// after `now` is left out; insulin counts as given just now, so that it blocks as long as any could.
void keep_recent(History& history, const Moment& now);

}  // namespace rushlight
