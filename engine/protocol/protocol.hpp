#pragma once

#include <string>
#include <vector>

#include "protocol/dose.hpp"
#include "protocol/fact.hpp"
#include "protocol/source.hpp"
#include "protocol/step.hpp"
#include "protocol/threshold.hpp"

namespace rushlight {

struct Timer {
  std::string name;
  Text label;
  Where where;
};

struct Counter {
  std::string name;
  Where where;
};

/// A clinic's protocol with every id looked up and every number read: what the engine walks.
/// Immutable once resolved. Whether it may be shown to anyone is another type's business: CheckedProtocol (verify/check.hpp).
struct Protocol {
  std::string set, name, version;
  std::vector<Language> languages;
  Text title;
  std::vector<Text> cautions;
  std::vector<Source> sources;
  std::vector<Threshold> thresholds;
  std::vector<Fact> facts;  // the child-file facts first (ChildFact)
  std::vector<Food> foods;
  std::vector<Dose> doses;
  std::vector<Timer> timers;
  std::vector<Counter> counters;
  std::vector<Ask> opening;
  std::vector<Sign> worse;
  std::vector<Watch> watch;
  std::vector<Action> actions;  // of all steps, in file order
  std::vector<Step> steps;
  StepId start;
  std::optional<ThresholdId> weight_fresh;  // a weight older than this is said on every dose
  Where where;

  const Source& operator[](SourceId id) const { return sources[id.index]; }
  const Threshold& operator[](ThresholdId id) const { return thresholds[id.index]; }
  const Fact& operator[](FactId id) const { return facts[id.index]; }
  const Dose& operator[](DoseId id) const { return doses[id.index]; }
  const Timer& operator[](TimerId id) const { return timers[id.index]; }
  const Counter& operator[](CounterId id) const { return counters[id.index]; }
  const Action& operator[](ActionId id) const { return actions[id.index]; }
  const Step& operator[](StepId id) const { return steps[id.index]; }
  const Watch& operator[](WatchId id) const { return watch[id.index]; }

  std::optional<FactId> fact_named(std::string_view name) const;
  std::optional<ActionId> action_named(std::string_view name) const;
  std::optional<StepId> step_named(std::string_view name) const;
};

}  // namespace rushlight
