#pragma once

#include <optional>
#include <string>
#include <vector>

#include "finding/finding.hpp"
#include "protocol/protocol.hpp"
#include "verify/compare.hpp"
#include "wire/json_writer.hpp"

namespace rushlight {

// What the engine has to say, in the words of the commands and in parts, for the page to set.

/// In the words of `check`.
void write_finding(JsonWriter& json, const Finding& finding, const std::optional<std::string>& line, bool fresh);

/// In the words of `compare`.
void write_differences(JsonWriter& json, const Differences& all);

/// Where a border decides: the step of which the most rules compare with one of these numbers, and what they compare.
struct Comparing {
  std::string step, subject;
};
std::optional<Comparing> most_comparing(const Protocol& protocol, const std::vector<ThresholdId>& numbers);

/// The steps whose decisions can be drawn, with what each reads.
void write_steps(JsonWriter& json, const Protocol& protocol, Language language);

}  // namespace rushlight
