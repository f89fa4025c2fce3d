#pragma once

#include <string>
#include <vector>

#include "measure/moment.hpp"
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

/// A moment to compare a fact with later: "since the first dose". A reading counts as risen only when it is more than
/// `rise_over` above the mark: two readings of one meter differ by chance.
struct Mark {
  std::string name;
  FactId fact;
  std::optional<ThresholdId> rise_over;  // ketones only
  Where where;
};

/// What the journal's past is looked through for: a low, a high, and how near two clock times are the same hour.
struct PastLimits {
  ThresholdId low, high, near;
};

/// How an approval stands to the bytes it is meant for. Only engine/seal may say `good`.
enum class Standing : std::uint8_t {
  unseen,     // nobody has looked
  changed,    // the signature does not fit: this file or another of its set is not what was approved
  untrusted,  // it fits, and the key is not trusted at this machine
  good,
};

/// One file of the approved set: its name without a folder, and SHA-256 of its bytes with the approval cut out.
struct ApprovedFile {
  std::string name, sha256;
  friend bool operator==(const ApprovedFile&, const ApprovedFile&) = default;
};

/// Who stands for a set, as what, and for how long. It is the same in every file of the set.
struct Approval {
  std::string by, role;
  Day on, until;
  std::vector<ApprovedFile> files;  // all of the set, by name
  std::string key, signature;       // hexadecimal, as written
  Standing standing = Standing::unseen;
  friend bool operator==(const Approval&, const Approval&) = default;
};

/// What one file of a set says for its own steps, wherever they are walked.
struct Part {
  std::string name;
  StepId start;
  std::vector<Ask> opening;
  std::uint16_t first_step, steps;    // its steps and watch rules stand together
  std::uint16_t first_watch, watches;
  std::optional<ThresholdId> daily_dose_fresh;  // a total daily dose older than this is none
  std::optional<PastLimits> past;
  std::optional<DoseId> hourly_fluid;           // the goal of each hour
  bool insulin_doses = false;                   // the clinic switched them on
  std::optional<Approval> approval;
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
  std::vector<Mark> marks;
  std::vector<Ask> opening;
  std::vector<Sign> worse;
  std::vector<Watch> watch;
  std::vector<Action> actions;  // of all steps, in file order
  std::vector<Step> steps;
  StepId start;
  std::optional<ThresholdId> weight_fresh;  // a weight older than this is said on every dose
  std::vector<Part> parts;  // one; several when a set is walked as one (protocol/linked.hpp), the one begun with first
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
  const Mark& operator[](MarkId id) const { return marks[id.index]; }

  /// The part a step belongs to; null in a protocol that was put together without parts.
  const Part* part_of(StepId step) const;

  std::optional<FactId> fact_named(std::string_view name) const;
  std::optional<ActionId> action_named(std::string_view name) const;
  std::optional<StepId> step_named(std::string_view name) const;
};

/// True when what was written down on earlier nights can matter: its facts are read, or insulin is given.
bool reads_the_past(const Protocol& protocol);

}  // namespace rushlight
