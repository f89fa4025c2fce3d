#include "verify/standing.hpp"

#include <algorithm>

namespace rushlight {

namespace {

// An early rule is looked at before the others.
std::vector<const Box*> before(const Table& table, const Step& step, std::size_t rule) {
  return step.rules[rule].early ? std::vector<const Box*>{} : taken_before(table, rule);
}

}  // namespace

const LawTables& Standings::tables(StepId step, WatchId watch) {
  const auto at = tables_.find({step.index, watch.index});
  if (at != tables_.end()) return at->second;
  return tables_
      .emplace(std::pair{step.index, watch.index}, tables_for_law(protocol_, protocol_[step], protocol_[watch].when))
      .first->second;
}

// A counter that the rule sets back is no longer what the watch asks for.
static bool sets_back(const Rule& rule, const Watch& watch) {
  return std::any_of(watch.when.begin(), watch.when.end(), [&](const Condition& each) {
    const auto* counted = std::get_if<CountedAtLeast>(&each.test);
    return counted != nullptr &&
           std::find(rule.resets.begin(), rule.resets.end(), counted->counter) != rule.resets.end();
  });
}

StillTrue Standings::along(const Way& way, WatchId watch) {
  if (way.kind != Way::Kind::rule) return StillTrue::may_be;
  if (sets_back(protocol_[way.from].rules[way.rule], protocol_[watch])) return StillTrue::over;
  const Step& step = protocol_[way.from];
  const Conditions& when = protocol_[watch].when;
  const bool all_known =
      std::all_of(when.begin(), when.end(), [&](const Condition& each) { return is_known_in(protocol_, step, each); });
  bool may_be = false, always = all_known;
  for (const Table& table : tables(way.from, watch).tables) {
    std::vector<const Box*> earlier = before(table, step, way.rule);
    Box standing = table.rules[way.rule];
    standing &= LawTables::law(table);
    may_be = may_be || (!standing.empty() && !all_taken(standing, earlier));
    earlier.push_back(&LawTables::law(table));
    always = always && all_taken(table.rules[way.rule], earlier);
  }
  if (!may_be) return StillTrue::over;
  return always ? StillTrue::still : StillTrue::may_be;
}

std::optional<std::string> Standings::just_answered(const Way& way, WatchId watch) {
  if (way.kind != Way::Kind::rule) return std::nullopt;
  const Step& step = protocol_[way.from];
  if (sets_back(step.rules[way.rule], protocol_[watch])) return std::nullopt;
  for (const Condition& each : protocol_[watch].when) {
    if (!is_known_in(protocol_, step, each)) return std::nullopt;
  }
  std::optional<std::string> example;
  for (const Table& table : tables(way.from, watch).tables) {
    if (example) break;
    Box standing = table.rules[way.rule];
    standing &= LawTables::law(table);
    if (standing.empty()) continue;
    each_left_over(standing, before(table, step, way.rule), [&](const Box& left) {
      example = example_of(protocol_, table, left);
      return false;
    });
  }
  return example;
}

}  // namespace rushlight
