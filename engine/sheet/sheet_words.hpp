#pragma once

#include <string>

#include "protocol/text.hpp"

namespace rushlight {

/// What the paper itself says beside the clinic's texts; sheet_words.cpp has each in every language.
enum class SheetWord : std::uint8_t {
  title,  // "{1}: {2}": the protocol's title and the child
  age_and_weight,
  awake_and_swallows,  // the first line
  yes,
  no,
  no_or_unsure,
  at_any_time,  // before the danger signs
  emergency,
  never_wait,
  trained_title,
  trained_no,
  trained_tick,
  not_awake_after,  // "{1}": a wait
  glucagon_already,
  glucagon_before,
  waiting_title,
  measure_title,
  give_title,
  again_title,
  eat_title,
  later_title,
  trouble_title,
  below_or_lo,  // "Below {1}, or LO"
  from_to,
  or_more,  // "{1} to {2}"; "{1} or more, or HI"
  or_less,
  no_reading,
  looks_well,
  looks_unwell,
  very_low_also,  // "{1}, also:"
  round,          // "Round {1}"
  sugar_at,
  measured_at,
  reading_blank,
  after_round,  // "Still low after round {1}"
  after_round_or_blind,
  blind_round,  // nobody could measure so often
  after_more_rounds,
  low_again,
  low_so_often,  // "Low again, {1} times in one night"
  still_after,  // "Still so after {1}, and low"
  still_after_not_low,
  blood_ketones_from,
  refused,
  refused_again,
  part_taken,
  vomited,
  none_here,
  none_at_all,
  wrong_drink,
  call_clinic,
  call_clinic_in_hours,  // that day or the next
  then,
  anything_else,
  no_insulin,
  nobody_answers,
  still_nobody,  // "... in {1}: call {2}"
  low_then,
  low_then_swallows,
  low_as_for,
  not_low_then,
  not_low_again,
  go_on_at,
  line_emergency,
  line_clinic,
  line_on_call,
  address,
  say_on_phone,
  say_child,  // "{1} has type 1 diabetes. {2}."
  readings_and_times,
  what_was_given,
  valid_until,
  valid_weight,
  valid_approval,
  valid_rescue,
  valid_age,
  valid_look_again,
  not_valid,    // "{1}"
  printed,      // "{1}"
  clock_blank,  // "__:__ (in {1})"
  page,
  go_to,
  see_page,
  sign_or_answer,
  signs_title,
  cannot_tell,
  or_cannot_tell,
  from_on,   // "{1} or more"
  by_hours,  // "From {1} to {2}"
};

std::string sheet_say(SheetWord word, Language language, const std::string& one = "", const std::string& two = "");

}  // namespace rushlight
