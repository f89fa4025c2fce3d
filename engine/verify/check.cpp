#include "verify/check.hpp"

#include "verify/properties.hpp"

namespace rushlight {

void Checking::error(const Where& where, Kind kind, std::optional<Because> because) {
  findings.push_back(Finding{Severity::error, where, std::move(kind), std::move(because)});
}

Checked check(Protocol protocol) {
  Checking checking{protocol, {}, graph_of(protocol)};
  for (const Step& step : protocol.steps) checking.tables.push_back(tables_of(protocol, step));
  every_value_has_a_rule(checking);
  no_rule_is_dead(checking);
  every_child_has_a_row(checking);
  no_dose_row_is_dead(checking);
  bounds_of_rows_are_in_order(checking);
  giving_is_followed_by_a_wait(checking);
  rules_read_what_is_asked(checking);
  early_rules_can_be_met(checking);
  every_step_is_reachable(checking);
  no_step_is_a_dead_end(checking);
  every_loop_passes_a_wait(checking);
  every_loop_is_bounded(checking);
  danger_signs_are_watched(checking);
  nothing_by_mouth_in_danger(checking);
  sort_findings(checking.findings);
  Checked checked{std::nullopt, std::move(checking.findings)};
  if (!has_error(checked.findings)) {
    checked.protocol = CheckedProtocol(std::make_shared<const Protocol>(std::move(protocol)));
  }
  return checked;
}

}  // namespace rushlight
