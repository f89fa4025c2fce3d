#pragma once

#include <optional>
#include <string>
#include <vector>

#include "episode/episode.hpp"
#include "episode/view.hpp"

namespace rushlight {

/// One line of the timeline: what was told or done, or what was advised then, by which rule.
struct RecordLine {
  Moment at;
  enum class Kind : std::uint8_t { told, advised, done, called } kind;
  std::string text;
  std::string ground;  // of advice: the rule, the number and its source
  Urgency urgency = Urgency::home;
  bool treats_low = false;  // sugar or glucagon that went in
};

struct RecordReading {
  Moment at;
  enum class Of : std::uint8_t { glucose, blood_ketones, urine_ketones } of;
  Value value;
  std::string text;      // as it was told: "52 mg/dL", "LO", "Moderate (++)"
  std::string option{};  // of a urine strip, its id: "moderate"
  bool by_sensor = false;
};

/// What went in, all doses of one kind together.
struct RecordTotal {
  std::string label;
  Quantity amount;
  int times = 0;
  std::string text{};  // of the amount, as a person reads it
};

/// An episode for a clinic: what happened, what was advised and why, what was done. Everything in it follows from the
/// events; times have the zone in which they were told.
struct NightRecord {
  Language language;
  std::string set, protocol, title, version, approval;
  std::string child, about;
  Moment began, last;  // the last event
  bool ended = false, abandoned = false;
  Urgency gravest = Urgency::home;
  std::vector<RecordLine> lines;
  std::vector<RecordReading> readings;
  std::vector<RecordTotal> totals;
  int treatments = 0;  // times something was given against a low
  std::vector<std::string> open_calls;
};

/// The record of the events as they were kept, in order. `language` is the record's own, whatever the night spoke.
NightRecord record_of(const Protocol& protocol, const Child& child, Moment began, const std::vector<Event>& events,
                      Language language);

/// What several episodes together show, as sentences: how many, how low, at which hours, how often somebody was called.
/// Counts only; no advice. The oldest first.
std::vector<std::string> patterns_of(const std::vector<NightRecord>& nights, Language language);

}  // namespace rushlight
