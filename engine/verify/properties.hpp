#pragma once

#include <string>
#include <vector>

#include "protocol/protocol.hpp"
#include "verify/graph.hpp"
#include "verify/regions.hpp"

// Private to engine/verify: one function a property, each in the file named for it. All of them look at a resolved
// protocol and add what they find; none of them changes anything or depends on another.

namespace rushlight {

/// What the properties share: the protocol, its tables (one entry a step) and where its steps lead.
struct Checking {
  const Protocol& protocol;
  std::vector<Tables> tables;
  Graph graph;
  std::vector<Finding> findings{};
  bool thresholds_cross = false;  // what follows from that is not told

  void error(const Where& where, Kind kind, std::optional<Because> because = std::nullopt);
  void warning(const Where& where, Kind kind, std::optional<Because> because = std::nullopt);
};

/// Every table takes every value of its questions, "can't tell" included.
void every_value_has_a_rule(Checking& checking);
/// No rule waits behind others that take everything it asks for.
void no_rule_is_dead(Checking& checking);
/// No sign and no grave number waits for something else before a watch fires, and no watch is for some children only.
void no_watch_is_held_back(Checking& checking);
/// No rule, wait, watch or outcome leads to a step that all others come to in another way.
void no_way_is_alone_of_its_kind(Checking& checking);
/// No step tells to give sugary drinks and sugar-free ones, and none announces an amount that nothing in it gives.
void a_screen_says_one_thing(Checking& checking);
/// A border is judged the same way wherever a fact is compared with it, where no gap says so already.
void every_border_is_judged_alike(Checking& checking);
/// Every counter is read by a rule, where nothing else is wrong.
void every_counter_is_read(Checking& checking);
/// Where some actions that give glucagon count it, all do.
void every_glucagon_is_counted(Checking& checking);
/// Every counter that a rule waits for is counted somewhere.
void no_rule_waits_for_a_counter_that_stands(Checking& checking);
/// No two rules that lead apart, and no two rows that give different amounts, both take the border between them.
void no_border_is_taken_twice(Checking& checking);
/// Every child finds a row in every dose table, a child of unknown weight too.
void every_child_has_a_row(Checking& checking);
/// No row waits behind others that take every child it is for.
void no_dose_row_is_dead(Checking& checking);
/// The least of a row is never above its most.
void bounds_of_rows_are_in_order(Checking& checking);
/// No amount is nothing or less, none passes the cap of the dose, a medicine that grows with the child has a cap, and what no published source gives is said.
void every_amount_keeps_its_bounds(Checking& checking);
/// What an action measures out it names as its dose.
void what_is_measured_out_is_a_dose(Checking& checking);
/// What did not go in does not count as given, as long as nobody has been called.
void what_did_not_go_in_is_not_given(Checking& checking);
/// No night ends calmly at once because something did not go in.
void no_trouble_ends_the_night_unasked(Checking& checking);
/// A pump that is paused starts a reminder, and the pause is remembered.
void a_paused_pump_is_not_forgotten(Checking& checking);
/// Glucagon is counted or recorded, so that it is not given again unasked.
void glucagon_is_remembered(Checking& checking);
/// No reading is asked again before anybody could take another.
void no_reading_is_asked_twice(Checking& checking);
/// Whether what was given works is told by a reading from after it.
void no_dose_is_judged_by_an_old_reading(Checking& checking);
/// No glucose of an hour ago decides what is done now.
void no_old_glucose_decides(Checking& checking);
/// What is given, and who is in an emergency, is looked at again after as long as is usual, and no call waits longer for
/// an answer.
void every_wait_is_a_usual_one(Checking& checking);
/// No night ends calmly on a number that is dangerous for every child, nor on a reading that nobody could take.
void no_night_ends_calmly_on_a_dangerous_number(Checking& checking);
/// An emergency that calls anybody calls the emergency services.
void no_emergency_calls_the_clinic_alone(Checking& checking);
/// Insulin is given by an action with a dose, and words do not stop the basal insulin.
void insulin_is_not_given_in_words(Checking& checking);
/// No row gives a bigger child, or one with more ketones, less than another row gives a smaller one.
void no_dose_falls_as_the_child_grows(Checking& checking);
/// What is given works before the glucose is asked again.
void giving_is_followed_by_a_wait(Checking& checking);
/// A rule reads only what its step asks.
void rules_read_what_is_asked(Checking& checking);
/// A rule for during the wait reads only what can be told then: choices that the step asks. A reading needs the whole wait.
void early_rules_can_be_met(Checking& checking);
/// Every step can be come to from the first.
void every_step_is_reachable(Checking& checking);
/// Every step ends the episode or leads on.
void no_step_is_a_dead_end(Checking& checking);
/// No one goes round without a wait or a question that must be answered anew.
void every_loop_passes_a_wait(Checking& checking);
/// No one goes round for ever.
void every_loop_is_bounded(Checking& checking);
/// The danger signs are watched, the steps they lead to handle them, no handling step is calmer than that, and none
/// that meets a danger sign is less than an emergency. No watch waits for the clock alone.
void danger_signs_are_watched(Checking& checking);
/// No step that a watch leads on to is left for the watch's own step again at once, so that nobody ever stays there.
void no_watch_leads_back_at_once(Checking& checking);
/// No watch leads to a calmer step than the one it interrupts; news does so in no emergency.
void no_watch_leads_to_a_calmer_step(Checking& checking);
/// Where help is waited for somebody has been called.
void who_waits_for_help_has_called(Checking& checking);
/// Whoever is told to come is not led to something calmer.
void who_is_told_to_come_goes(Checking& checking);
/// No step is calmer than the call it makes.
void no_step_is_calmer_than_its_call(Checking& checking);
/// No rule ends a night calmly on an answer that a watch looks out for.
void no_night_ends_calmly_in_danger(Checking& checking);
/// Insulin and glucagon never stand on one screen.
void insulin_stands_apart_from_glucagon(Checking& checking);
/// Nothing goes by mouth where a child may not be awake or able to swallow.
void nothing_by_mouth_in_danger(Checking& checking);
/// The first questions look at the child and at what was given, each danger sign, and what else a watch looks out for, can be
/// told as something that got worse, each such line leads somewhere, and no deed answers a danger.
void danger_can_be_told_at_any_time(Checking& checking);
/// No way goes from an emergency to a calmer step as long as the danger has not been answered anew.
void no_way_leaves_an_emergency_calmly(Checking& checking);
/// The step that a danger sign leads to calls for help.
void every_emergency_is_called(Checking& checking);
/// When nobody answers after a wait, nothing gets calmer, and somebody is called in the end.
void silence_comes_to_a_call(Checking& checking);
/// No floor of an insulin dose lies where the child is low.
void no_insulin_below_the_floor(Checking& checking);
/// Insulin is never given again at once.
void no_insulin_is_stacked(Checking& checking);
/// Insulin is given by a dose table, since that is what the floor and the other limits of insulin hold back.
void insulin_goes_by_a_dose(Checking& checking);

/// What is told of a table when Cover gave up on it.
TooLarge too_entangled();

}  // namespace rushlight
