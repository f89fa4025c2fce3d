#pragma once

#include <string>

#include "protocol/step.hpp"
#include "protocol/text.hpp"

namespace rushlight {

/// What the record itself says beside the clinic's texts; record_words.cpp has each in every language.
enum class RecordWord : std::uint8_t {
  title,    // "{1}: {2}": the protocol's title and the child
  from_to,  // "From {1} to {2}"
  still_open,
  left_off,
  gravest,   // "At worst: {1}"
  set_line,  // "{1} {2}, version {3}": set, protocol
  timeline,
  readings_title,
  totals_title,
  calls_title,
  patterns_title,
  worse,       // "Worse: {1}"
  corrected,   // "Corrected: {1}"
  taken_over,  // "{1} carries on"
  cannot_tell,
  nothing_given,
  total_line,  // "{1}: {2} in {3}"
  once,
  times,           // "once", "{1} times"
  call_open,       // "Not answered yet: {1}"
  episodes,        // "{1} episodes in {2} days"
  lowest,          // "Lowest glucose: {1}, {2}"
  lows_by_hour,    // "{1} of {2} treatments between {3} and {4}"
  days_with_lows,  // "Treated on {1} days"
  emergencies,     // "Emergency in {1} episodes"
  no_pattern,
  page_of,
  by_rule,
  sensor,
};

std::string record_say(RecordWord word, Language language, const std::string& one = "", const std::string& two = "",
                       const std::string& three = "", const std::string& four = "");

/// "given", "only part", "refused" and so on, as a clinic reads it.
std::string said_outcome(Outcome outcome, Language language);

}  // namespace rushlight
