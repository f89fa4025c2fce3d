#include <algorithm>

#include "verify/law_properties.hpp"

namespace rushlight {

namespace {

/// What the step does against the law, to be read behind "which"; empty when nothing.
std::string offence_of(const Protocol& protocol, const NeverLaw& law, const Step& step) {
  if (law.calmer_than && step.urgency < *law.calmer_than)
    return "is `" + std::string(name_of(step.urgency)) + "`, calmer than `" + std::string(name_of(*law.calmer_than)) +
           "`";
  for (const ActionId id : step.actions) {
    if (law.does && protocol[id].kind == *law.does)
      return "does `" + protocol[id].name + "` (" + std::string(name_of(*law.does)) + ")";
  }
  return {};
}

/// The first child for whom the law's conditions hold and whom the rule takes.
std::optional<std::string> forbidden_case(const Protocol& protocol, const LawTables& law, std::size_t rule,
                                          bool& gave_up) {
  std::optional<std::string> example;
  for (const Table& table : law.tables) {
    if (example) break;
    Box box = table.rules[rule];
    box &= LawTables::law(table);
    const Search search = each_left_over(box, taken_before(table, rule), [&](const Box& left) {
      example = example_of(protocol, table, left);
      return false;
    });
    gave_up = gave_up || search == Search::gave_up;
  }
  return example;
}

}  // namespace

void never_is_kept(Checking& checking, const NeverLaw& law) {
  const Protocol& protocol = checking.protocol;
  if (law.calmer_than == Urgency::home && !law.does)
    return checking.warning(law.where, LawIdle{law.name, "nothing is calmer than `home`"});
  if (nobody_meets(protocol, law.when)) return checking.warning(law.where, LawIdle{law.name, kNobodyMeets});
  bool looked_at = false;
  for (const Step& step : protocol.steps) {
    const bool known = std::all_of(law.when.begin(), law.when.end(),
                                   [&](const Condition& each) { return is_known_in(protocol, step, each); });
    if (!known || step.ends) continue;
    looked_at = true;
    std::optional<LawTables> tables;
    bool gave_up = false;
    for (std::size_t rule = 0; rule < step.rules.size(); ++rule) {
      const Rule& way = step.rules[rule];
      if (!way.visits.empty() || !way.hands_over_to.empty()) continue;  // another protocol, with laws of its own
      const std::string offence = offence_of(protocol, law, protocol[way.go]);
      if (offence.empty()) continue;
      if (!tables) tables = tables_for_law(protocol, step, law.when);
      const auto example = forbidden_case(protocol, *tables, rule, gave_up);
      if (!example) continue;
      checking.error(way.where, NeverBroken{law.name, *example, protocol[way.go].name, offence},
                     Because{"the law `" + law.name + "`", law.where});
    }
    if (gave_up) checking.error(step.where, too_entangled());
  }
  if (!looked_at) checking.warning(law.where, LawIdle{law.name, "no step asks for all that it reads"});
}

}  // namespace rushlight
