#include "verify/check.hpp"

#include <iterator>

#include "verify/properties.hpp"
#include "verify/worked_examples.hpp"

namespace rushlight {

void Checking::error(const Where& where, Kind kind, std::optional<Because> because) {
  findings.push_back(Finding{Severity::error, where, std::move(kind), std::move(because)});
}

void Checking::warning(const Where& where, Kind kind, std::optional<Because> because) {
  findings.push_back(Finding{Severity::warning, where, std::move(kind), std::move(because)});
}

Checked check(Protocol protocol) {
  Checking checking{protocol, {}, graph_of(protocol)};
  for (const Step& step : protocol.steps) checking.tables.push_back(tables_of(protocol, step));
  every_value_has_a_rule(checking);
  no_rule_is_dead(checking);
  no_rule_waits_for_a_counter_that_stands(checking);
  no_border_is_taken_twice(checking);
  every_child_has_a_row(checking);
  no_dose_row_is_dead(checking);
  bounds_of_rows_are_in_order(checking);
  every_amount_keeps_its_bounds(checking);
  no_dose_falls_as_the_child_grows(checking);
  giving_is_followed_by_a_wait(checking);
  what_is_measured_out_is_a_dose(checking);
  what_did_not_go_in_is_not_given(checking);
  no_trouble_ends_the_night_unasked(checking);
  a_paused_pump_is_not_forgotten(checking);
  glucagon_is_remembered(checking);
  no_reading_is_asked_twice(checking);
  no_dose_is_judged_by_an_old_reading(checking);
  every_wait_is_a_usual_one(checking);
  rules_read_what_is_asked(checking);
  no_old_glucose_decides(checking);
  early_rules_can_be_met(checking);
  every_step_is_reachable(checking);
  no_step_is_a_dead_end(checking);
  every_loop_passes_a_wait(checking);
  every_loop_is_bounded(checking);
  danger_signs_are_watched(checking);
  danger_can_be_told_at_any_time(checking);
  no_watch_leads_back_at_once(checking);
  no_watch_leads_to_a_calmer_step(checking);
  no_night_ends_calmly_in_danger(checking);
  no_night_ends_calmly_on_a_dangerous_number(checking);
  no_way_leaves_an_emergency_calmly(checking);
  every_emergency_is_called(checking);
  no_emergency_calls_the_clinic_alone(checking);
  who_waits_for_help_has_called(checking);
  who_is_told_to_come_goes(checking);
  no_step_is_calmer_than_its_call(checking);
  nothing_by_mouth_in_danger(checking);
  silence_comes_to_a_call(checking);
  no_insulin_below_the_floor(checking);
  no_insulin_is_stacked(checking);
  insulin_goes_by_a_dose(checking);
  insulin_is_not_given_in_words(checking);
  insulin_stands_apart_from_glucagon(checking);
  every_glucagon_is_counted(checking);
  no_watch_is_held_back(checking);
  no_way_is_alone_of_its_kind(checking);
  a_screen_says_one_thing(checking);
  every_border_is_judged_alike(checking);
  every_counter_is_read(checking);
  sort_findings(checking.findings);
  Checked checked{std::nullopt, std::move(checking.findings), {}};
  if (!has_error(checked.findings)) {
    checked.shown = shown_by(checking);
    checked.protocol = CheckedProtocol(std::make_shared<const Protocol>(std::move(protocol)));
  }
  return checked;
}

Checked check_linked(const std::vector<CheckedProtocol>& set, std::string_view first, const ExamplesDraft* examples) {
  std::vector<const Protocol*> protocols;
  for (const CheckedProtocol& each : set) protocols.push_back(&each.protocol());
  Read<Protocol> whole = linked(protocols, first);
  Checked checked{std::nullopt, std::move(whole.findings), {}};
  if (whole.value && examples != nullptr) {
    Read<std::vector<WorkedExample>> read = worked_examples_of(*examples, *whole.value);
    WorkedExamples walked;
    if (read.value) walked = walked_examples(*whole.value, *read.value);
    for (std::vector<Finding>* findings : {&read.findings, &walked.findings})
      std::move(findings->begin(), findings->end(), std::back_inserter(checked.findings));
    if (walked.shown) checked.shown.push_back(std::move(*walked.shown));
  }
  if (whole.value) checked.protocol = CheckedProtocol(std::make_shared<const Protocol>(std::move(*whole.value)));
  return checked;
}

}  // namespace rushlight
