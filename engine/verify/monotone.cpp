#include <algorithm>

#include "verify/law_properties.hpp"
#include "verify/neighbours.hpp"
#include "verify/step_parts.hpp"

namespace rushlight {

namespace {

bool stays_here(const Rule& rule) { return rule.visits.empty() && rule.hands_over_to.empty(); }

/// One pair for each rule that takes a worse answer to a calmer step.
void look_at(Checking& checking, const MonotoneLaw& law, const Step& step, const LawTables& tables) {
  const Protocol& protocol = checking.protocol;
  std::vector<ChildrenCompared> comparing;
  for (const Table& table : tables.tables) {
    if (const auto place = dimension_of(table, law.fact))
      comparing.emplace_back(protocol, table, *place, &LawTables::law(table));
  }
  for (std::size_t worse = 0; worse < step.rules.size(); ++worse) {
    const Rule& rule = step.rules[worse];
    std::optional<ChildPair> found;
    for (std::size_t better = 0; better < step.rules.size() && !found; ++better) {
      const Rule& other = step.rules[better];
      if (!stays_here(rule) || !stays_here(other) || protocol[rule.go].urgency >= protocol[other.go].urgency) continue;
      for (ChildrenCompared& each : comparing) {
        for (const AnswerPair& at : answer_pairs_in(each.answers(), law.lower_is_worse)) {
          if (!found) found = each.pair(worse, better, at);
        }
      }
      if (!found) continue;
      const auto urgency = [&](const Rule& each) { return std::string(name_of(protocol[each.go].urgency)); };
      checking.error(rule.where,
                     WorseIsCalmer{law.name, found->worse, protocol[rule.go].name, urgency(rule), found->better,
                                   protocol[other.go].name, urgency(other)},
                     Because{"the rule for the better answer", other.where});
    }
  }
  if (std::any_of(comparing.begin(), comparing.end(), [](const ChildrenCompared& each) { return each.gave_up(); }))
    checking.error(step.where, too_entangled());
}

}  // namespace

namespace {

bool reads(const Conditions& conditions, FactId fact) {
  return std::any_of(conditions.begin(), conditions.end(), [&](const Condition& condition) {
    return subject_of(condition) == Subject{Subject::Kind::fact, fact.index};
  });
}

/// Whether two answers can lead to two rules of the step, one calmer than the other.
bool may_lead_apart(const Protocol& protocol, const Step& step, FactId fact) {
  const auto of_a_rule = [&](const Rule& rule) { return reads(rule.when, fact); };
  const auto of_a_watch = [&](const Watch& watch) { return reads(watch.when, fact); };
  if (std::none_of(step.rules.begin(), step.rules.end(), of_a_rule) &&
      std::none_of(protocol.watch.begin(), protocol.watch.end(), of_a_watch))
    return false;
  std::optional<Urgency> first;
  return std::any_of(step.rules.begin(), step.rules.end(), [&](const Rule& rule) {
    if (!stays_here(rule)) return false;
    if (!first) first = protocol[rule.go].urgency;
    return protocol[rule.go].urgency != *first;
  });
}

/// Where a rule leads that looks at nothing but this fact, and to which side of a border.
bool looks_only_at(const Rule& rule, FactId fact) {
  return !rule.when.empty() && std::all_of(rule.when.begin(), rule.when.end(), [&](const Condition& condition) {
    return subject_of(condition) == Subject{Subject::Kind::fact, fact.index};
  });
}

bool takes_better(const Rule& rule, const MonotoneLaw& law) {
  return std::all_of(rule.when.begin(), rule.when.end(), [&](const Condition& condition) {
    const auto* test = std::get_if<Compares>(&condition.test);
    if (test == nullptr) return false;
    const bool upper = test->comparison == Comparison::at_least || test->comparison == Comparison::above;
    return upper == law.lower_is_worse;
  });
}

bool takes_unknown(const Rule& rule) {
  return std::all_of(rule.when.begin(), rule.when.end(), [](const Condition& condition) {
    const auto* test = std::get_if<Is>(&condition.test);
    return test != nullptr && test->options == kUnknownBit;
  });
}

/// Nobody knows how bad it is: that is no reason to end the night where the best answer ends it.
void look_at_unknown(Checking& checking, const MonotoneLaw& law, const Step& step) {
  const auto is_worse = [&](const Rule& rule) {
    return looks_only_at(rule, law.fact) && !takes_better(rule, law) && !takes_unknown(rule);
  };
  for (const Rule& unknown : step.rules) {
    if (!looks_only_at(unknown, law.fact) || !takes_unknown(unknown)) continue;
    const Step& to = checking.protocol[enters(unknown)];
    if (!to.ends || to.urgency >= Urgency::clinic_now) continue;
    const bool as_the_best = std::any_of(step.rules.begin(), step.rules.end(), [&](const Rule& rule) {
      return looks_only_at(rule, law.fact) && takes_better(rule, law) && enters(rule) == enters(unknown);
    });
    const bool worse_apart = std::any_of(step.rules.begin(), step.rules.end(), [&](const Rule& rule) {
      return is_worse(rule) && !(enters(rule) == enters(unknown));
    });
    const bool as_a_worse = std::any_of(step.rules.begin(), step.rules.end(), [&](const Rule& rule) {
      return is_worse(rule) && enters(rule) == enters(unknown);
    });
    if (!as_the_best || !worse_apart || as_a_worse) continue;
    const Protocol& protocol = checking.protocol;
    checking.warning(unknown.where,
                     UnknownIsCalm{law.name, step.name, protocol[law.fact].name, protocol[enters(unknown)].name},
                     Because{"the law `" + law.name + "` says which answers are worse", law.where});
  }
}

}  // namespace

void worse_is_never_calmer(Checking& checking, const MonotoneLaw& law) {
  const Protocol& protocol = checking.protocol;
  const bool is_asked = std::any_of(protocol.steps.begin(), protocol.steps.end(),
                                    [&](const Step& step) { return ask_for(step, law.fact) != nullptr; });
  if (nobody_meets(protocol, law.when)) return checking.warning(law.where, LawIdle{law.name, kNobodyMeets});
  if (!is_asked && !protocol[law.fact].from_child)
    checking.warning(law.where, LawIdle{law.name, "no step asks for `" + protocol[law.fact].name + "`"});
  for (const Step& step : protocol.steps) {
    const bool asked =
        std::any_of(step.asks.begin(), step.asks.end(), [&](const Ask& ask) { return ask.fact == law.fact; });
    if (asked && !step.ends) look_at_unknown(checking, law, step);
    if (!asked || step.ends || !may_lead_apart(protocol, step, law.fact)) continue;
    Conditions known;
    for (const Condition& condition : law.when) {
      if (is_known_in(protocol, step, condition)) known.push_back(condition);
    }
    look_at(checking, law, step, tables_for_law(protocol, step, known));
  }
}

}  // namespace rushlight
