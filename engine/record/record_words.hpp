#pragma once

#include <string>

#include "measure/moment.hpp"
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
  worse,
  corrected,
  taken_over,  // "{1} carries on"
  cannot_tell,
  nothing_given,
  total_line,  // "{1}: {2} in {3}"
  once,
  times,           // "once", "{1} times"
  episodes,        // "{1} episodes in {2} days"
  lowest,          // "Lowest glucose: {1}, {2}"
  lows_by_hour,    // "{1} of {2} treatments between {3} and {4}"
  days_with_lows,  // "Treated on {1} days"
  emergencies,     // "Emergency in {1} episodes"
  no_pattern,
  page_of,
  sensor,  // behind the star that its readings have
  glucose, ketones, urine_ketones,  // at the head of a row of readings; behind the first two, the unit
  told_column, advised_column, done_column,
  sources_title,
  stands,      // "At {1}: {2}"
  next_look,   // "{1}: {2}": what, at which time
  ended_at,    // "Ended at {1}."
  drunk,       // "Drunk: {1}"
  of_goal,     // "{1} of {2}"
  vomits,      // "Vomits, each time asked: {1}"
  not_given,   // "Not told as given: {1}"
  sugar, insulin, glucagon,
  no_calls,
  no_danger_signs,      // all that were asked for, and as before
  else_unchanged,
  asked_at,             // "asked at {1}, answered late": before what was told then
  alarm_unanswered,     // "Alarm at {1}: nobody answered"
  worse_unnamed,
  withheld,             // "Withheld, {1}: {2}"
  as_before,
  untold,
  drank,  // "drank": before the amount, of a drink in the timeline
  short_clinic, short_on_call, short_emergency,  // whom, in the timeline; the list of calls has the numbers
  times_until,  // "{1} times until {2}"
  late,
  until,        // "until {1}"
  looks_together,  // that the timeline is not whole here, and where it is
  withheld_named,  // "Withheld: {1}"
  silent_by,            // "nobody answered by {1}"
  not_answered_yet,
  no_longer_needed,     // "no longer needed {1}"
};

std::string record_say(RecordWord word, Language language, const std::string& one = "", const std::string& two = "",
                       const std::string& three = "", const std::string& four = "");

/// "given", "only part", "refused" and so on, as a clinic reads it.
std::string said_outcome(Outcome outcome, Language language);

/// "02:11", and with its day: a moment as the clock on the wall showed it.
std::string wall_clock(const Moment& moment);
std::string day_and_wall_clock(const Moment& moment);

}  // namespace rushlight
