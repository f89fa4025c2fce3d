#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "protocol/child.hpp"
#include "protocol/draft.hpp"
#include "protocol/protocol.hpp"

namespace rushlight {

// Worked examples of a set (examples.xml, docs/examples-format.md): given these answers at these times, expect this
// step, this urgency, this dose. The answers are read by the engine that walks them (verify/worked_examples.hpp).

/// An invented child. What is not said is unknown, or not there.
struct ExampleChild {
  std::string name;
  Age age = Age::of_years(6);
  std::optional<BodyWeight> weight;
  std::optional<InsulinDose> total_daily_dose, insulin_step;
  std::optional<CorrectionFactor> correction_factor;
  Delivery delivery = Delivery::injections;
  std::optional<RescueKind> rescue;
  bool rescue_expired = false;
  Strips strips = Strips::none;
  GlucoseUnit unit = GlucoseUnit::mg_per_dl;
  bool mini_dose_kit = false;
};

/// Answers that are told together.
struct ExampleAnswers {
  std::vector<std::pair<FactId, Word>> answers;
  bool worse;  // said without being asked
};
struct ExampleDeed {
  ActionId action;
  Outcome outcome;
  std::optional<Quantity> amount;
  Where where;
};
struct ExampleAllDone {
  Where where;
};
struct ExampleCall {
  Contact contact;
  Outcome outcome;
  Where where;
};
/// What has to be on the screen; each part where it is written.
struct Expectation {
  std::optional<Word> protocol, step, dose, withheld;
  std::optional<std::pair<Urgency, Where>> urgency;
  std::optional<std::pair<Quantity, Where>> amount;
  Where where;
};

using ExampleLine = std::variant<ExampleAnswers, ExampleDeed, ExampleAllDone, ExampleCall, Expectation>;

struct ExampleMoment {
  Duration after;  // since the example began
  std::vector<ExampleLine> lines;
};

struct WorkedExample {
  std::string name;
  ExampleChild child;
  ClockTime begins;
  std::vector<ExampleMoment> moments;
  Where where;
};

}  // namespace rushlight
