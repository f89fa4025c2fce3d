#pragma once

#include "protocol/draft.hpp"

namespace rushlight {

// safety.xml as it is written, every word with its place. safety_from_xml makes it, safety_rules_of turns it into the
// laws of one protocol. docs/safety-format.md is the page for both.

struct DraftNever {
  Where where;
  MaybeWord id, protocol, does, calmer_than, source;
  std::vector<DraftCondition> when;
};

struct DraftWithin {
  Where where;
  MaybeWord id, protocol, come_to, at_once, late, source;
  std::vector<DraftCondition> stays;
};

struct DraftLook {
  Where where;
  MaybeWord id, protocol, after, urgency, at_least, at_most, source;
};

struct DraftMonotone {
  Where where;
  MaybeWord id, protocol, fact, worse, source;
  std::vector<DraftCondition> when;
};

struct DraftReading {
  Where where;
  MaybeWord language, grade_at_most, ease_at_least, source;
};

struct SafetyDraft {
  Where where;
  MaybeWord set;
  std::optional<DraftApproval> approval;
  std::vector<DraftSource> sources;
  std::vector<DraftNever> never;
  std::vector<DraftWithin> within;
  std::vector<DraftLook> look;
  std::vector<DraftMonotone> monotone;
  std::vector<DraftReading> reading;
};

}  // namespace rushlight
