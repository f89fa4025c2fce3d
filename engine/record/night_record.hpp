#pragma once

#include <optional>
#include <string>
#include <vector>

#include "episode/episode.hpp"
#include "episode/view.hpp"
#include "record/record_calls.hpp"

namespace rushlight {

/// What was done, or how it went otherwise: "Fast sugar 7 g", "Fast sugar: vomited".
struct RecordDeed {
  Moment at;
  std::string text;
  bool treats_low = false;  // sugar or glucagon that went in
  bool everyday = false;    // a drink, or a call whose outcome stands in the list of calls
  // Of what is everyday, what the text is made of.
  std::string what{}, how{};
  std::optional<Quantity> amount{};
  int times = 1;
};

/// One line of the timeline: what was told at about that time, what was advised upon it, and what was then done. Looks
/// that are the same, one after the other, are one line.
struct RecordLine {
  Moment at;
  Moment until{};  // of several looks, the last one's time
  int times = 1;
  std::string told;     // in short words; may be empty
  std::string advised;  // what the screen said first; empty where it only asked
  std::string ground;  // the rule that led there, and its sources by number: "low-check/2 [1,3]"; of a call that nobody
                       // answered and that moved on: empty
  std::vector<RecordDeed> done;
  bool untold = false;  // something was to be given, and nobody told how that went
  // What put_together needs to know of it.
  std::vector<std::string> answers{};     // what was told that is no reading, each by itself
  bool signs_absent = false, rest_same = false;
  bool late = false, grave = false;
  bool stands_alone = false;  // a correction, somebody else, a danger sign, a dose that nobody told of
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

/// A published source that an advice of this record rests on, and the numbers that were taken from it. Its number is
/// its place, from 1.
struct RecordSource {
  std::string citation;
  std::vector<std::string> numbers;  // "Treat as low below 70 mg/dL"
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
  std::string stands;  // what was advised when the record ends, and the next look
  std::vector<RecordLine> lines;
  std::vector<RecordReading> readings;
  std::vector<RecordTotal> totals;
  std::string drinks;       // "640 mL of 900 mL": since they count, by the protocol's goal; may be empty
  std::vector<int> vomits;  // as told, each time somebody was asked
  std::string not_given;    // "insulin, glucagon": of what a clinic asks for, what nobody told as given
  int treatments = 0;       // times something was given against a low
  std::vector<RecordCall> calls;
  std::vector<RecordSource> sources;
};

/// The record of the events as they were kept, in order. `language` is the record's own, whatever the night spoke.
/// A step that only asked has no advice of its own: its answers stand with what came of them.
NightRecord record_of(const Protocol& protocol, const Child& child, Moment began, const std::vector<Event>& events,
                      Language language);

/// What several episodes together show, as sentences: how many, how low, at which hours, how often somebody was called.
/// Counts only; no advice. The oldest first.
std::vector<std::string> patterns_of(const std::vector<NightRecord>& nights, Language language);

}  // namespace rushlight
