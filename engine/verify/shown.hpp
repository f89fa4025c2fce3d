#pragma once

#include <string>
#include <variant>
#include <vector>

#include "finding/property.hpp"
#include "measure/amounts.hpp"
#include "protocol/step.hpp"

namespace rushlight {

struct Checking;

/// "43 steps": how many of something were looked at, all of them.
struct LookedAt {
  std::size_t number;
  std::string thing;  // in the singular: "step"
};

/// A property that holds in the whole file.
struct Holds {
  Property property;
  std::vector<LookedAt> in;
};

/// A law of the clinic that every night keeps: how late a child for whom something stays true comes to a step that
/// grave.
struct ComesInTime {
  std::string child;  // "glucose below 54 mg/dL or 3.0 mmol/L (`very-low`)"
  Urgency come_to;
  Duration at_once;  // when every question is answered at once
  Duration late;     // when answers come as late as the protocol lets them
};

/// Worked examples of the clinic that all come out as they say.
struct ExamplesCome {
  std::string protocol;
  LookedAt examples, expectations;
};

/// Something that nobody should take for shown.
struct NotShown {
  std::string what;  // "whether a number is right for a child"
  std::string why;   // "9 of 61 numbers name no source but common practice"; may be empty
};

/// What a check has to say beside its findings. Each kind of statement is a type with the numbers it is made of; a new
/// one is one more here and its line in sentence().
using Shown = std::variant<Holds, ComesInTime, ExamplesCome, NotShown>;

/// "45 min", "3 h 45 min".
std::string hours_and_minutes(Duration duration);

/// One line, small letters, no full stop: "every answer has a rule, \"can't tell\" too (43 steps, 86 tables)".
std::string sentence(const Shown& shown);

/// Of a protocol whose checks found no error, from what they looked at: each property that a file has, then what is not
/// shown.
std::vector<Shown> shown_by(const Checking& checking);

}  // namespace rushlight
