#pragma once

#include <optional>
#include <string>
#include <vector>

#include "measure/decimal.hpp"
#include "protocol/protocol.hpp"

namespace rushlight {

// The laws that a clinic writes over its own protocols, in the file safety.xml of its set (docs/safety-format.md). They
// only add: what no clinic can take away is checked without them (verify/dangers.hpp).

/// A child for whom all conditions hold is never led to a step that does this, or that is calmer than this.
struct NeverLaw {
  std::string name;
  Conditions when;
  std::optional<ActionKind> does;
  std::optional<Urgency> calmer_than;
  Where where;
};

/// A child for whom the conditions stay true, whatever else happens, is at a step of this urgency or a graver one in
/// time.
struct WithinLaw {
  std::string name;
  Conditions stays;
  Urgency come_to;
  Duration at_once;  // when every question is answered at once
  Duration late;     // when every answer comes as late as the protocol allows
  Where where;
};

/// How long after something was given, or how often in a step of this urgency, somebody looks again: every wait of such
/// a step is as long as this, and so is the wait for an answer to a call to the emergency services there.
struct LookLaw {
  std::string name;
  std::optional<DoseId> after;     // steps that give it
  std::optional<Urgency> urgency;  // steps of it
  std::optional<Duration> at_least;
  std::optional<Duration> at_most;
  Where where;
};

/// When this fact is worse and all other answers are the same, no rule leads to a calmer step. The conditions narrow it
/// to where worse has this direction: a glucose that is lower is worse in a low, and not in a child with ketones.
struct MonotoneLaw {
  std::string name;
  FactId fact;
  bool lower_is_worse;
  Conditions when;
  Where where;
};

/// How hard a text may be to read in one language: at most this school grade for English, at least this ease for
/// Spanish (verify/reading.hpp).
struct ReadingLaw {
  Language language;
  Decimal limit;
  Where where;
};

/// What safety.xml says of one protocol.
struct SafetyRules {
  std::vector<NeverLaw> never;
  std::vector<WithinLaw> within;
  std::vector<LookLaw> look;
  std::vector<MonotoneLaw> monotone;
  std::vector<ReadingLaw> reading;
};

}  // namespace rushlight
