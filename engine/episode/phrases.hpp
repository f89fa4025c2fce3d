#pragma once

#include <string>

#include "protocol/step.hpp"

namespace rushlight {

/// The few fixed words the house itself says beside the clinic's texts, in every language.
enum class Phrase : std::uint8_t {
  not_approved,          // every face, until a clinic has approved the set
  approval_void, approval_untrusted, approval_to_come, approval_over, approved_by,
  does_not_replace,
  in_urine,              // "urine: Moderate (++)", behind the reading of the blood
  weight_from,           // "The weight is from {1}. Weigh again soon."
  weight_unknown,
  reading_was_early,     // "... Measure again {1}.": when_again
  clock_went_back,
  time_is_up,
  second_alarm,          // "Set a second alarm on another clock."
  look_at_expiry,
  rescue_expired,
  clinic, on_call_line, emergency_services,
  call_clinic, call_on_call, call_emergency,  // "Call {1} now."
  clinic_silent, nobody_answered,             // the same after nobody answered before
  clinic_may_be_silent, nobody_may_have_answered,  // the same where time passed and nobody said so
  call_clinic_in_hours,
  given_until,           // "{1}": when to check
  your_clinic_number, your_on_call_number, your_emergency_number, second_adult, your_address, rescue_place_unknown,
  of_food,               // "{1} of {2}"
  at_most, at_least, rounded_up_to, rounded_down_to, rounded_to,
  pen_in_steps, pen_too_coarse,  // "with a pen in steps of {1}: {2}", for a dose that only a pump can set
  no_dose_known,
  no_reading,
  something_sweet,       // when neither the child's list nor the protocol has a food
  as_advised,
  pump_is_paused,
  yes, no,
  years, months, days,   // "{1} years"
  in_time, at_time,      // "in 15 minutes", "at 02:26"
  one_hour, hours, one_minute, minutes,
  one_unit,
  units,                 // of insulin; UCUM codes are for files
  micrograms,
  call_for_the_dose,     // after every reason why no insulin dose is shown
  insulin_as_said, insulin_clinic_said, insulin_not_approved, insulin_not_switched_on, insulin_pump_corrects,
  insulin_daily_dose_unknown, insulin_daily_dose_old, insulin_strength_unknown, insulin_other_strength,
  insulin_somebody_else, insulin_last_unknown,
  insulin_too_soon,      // "{1}": from when on
  insulin_no_reading, insulin_reading_old, insulin_asked_first,
  insulin_below_floor,   // "{1}": the floor
  insulin_less_than_a_step,
  a_day, above_target,   // parts of a sum: "16 units a day"; "(310 - 150) mg/dL / 50 mg/dL a unit"
  larger_of,             // "the larger of {1} and {2}"
  // What to say on the telephone, a line each.
  phone_weight_unknown, phone_glucose, phone_ketones, phone_urine, phone_insulin, phone_drinks, phone_vomits, phone_done, phone_goal_alone, phone_nothing_else, phone_yesterday, phone_days_ago,
  phone_at,              // "{1} at {2}"
  phone_nothing, phone_not_known, phone_not_asked,
  phone_rapid_ago,       // "last rapid-acting {1} ago"
  phone_not_in_a_day,
  phone_of_goal,         // "{1} of {2}"
  phone_type_1,          // what the first line begins with
  phone_say_mark,        // what stands before the reason in the text of a call: "Say: low, and vomits"
  phone_which_dose,      // "asks for the dose: {1}"
  phone_daily_total, phone_injections, phone_pump, phone_automatic_pump,
  phone_rescue_nasal, phone_rescue_injection, phone_no_rescue, phone_rescue_old,
  phone_nobody_asked,    // not the same as not known
  phone_part, phone_refused, phone_vomited, phone_wrong,  // "{1}, only part"
  phone_answers,
  phone_earlier,         // "Since {1}: {2}"
};

std::string phrase(Phrase phrase, Language language, const std::string& one = "", const std::string& two = "");

/// "Treat here", "Call the clinic", "Call the clinic now", "Emergency".
std::string shown_as(Urgency urgency, Language language);

}  // namespace rushlight
