#pragma once

#include <variant>

#include "protocol/draft.hpp"

namespace rushlight {

// examples.xml as it is written, every word with its place. examples_from_xml makes it, worked_examples_of turns it
// into the examples of one protocol. docs/examples-format.md is the page for both.

struct DraftExampleChild {
  Where where;
  MaybeWord id, age, weight, total_daily_dose, insulin_step, correction_factor, delivery, rescue, strips, unit,
      mini_dose_kit;
};

/// `<answer>`, `<worse>`, `<done>`, `<all-done>` or `<call>`.
struct DraftHappening {
  Word kind;  // the element's name
  MaybeWord fact, is, action, outcome, amount, contact;
};

struct DraftExpect {
  Where where;
  MaybeWord protocol, step, urgency, dose, amount, withheld;
};

/// `<at>`: what happens then, and what has to be on the screen, in this order.
struct DraftMoment {
  Where where;
  MaybeWord after;
  std::vector<std::variant<DraftHappening, DraftExpect>> lines;
};

struct DraftWorkedExample {
  Where where;
  MaybeWord id, protocol, child, begins, source;
  std::vector<DraftMoment> moments;
};

struct ExamplesDraft {
  Where where;
  MaybeWord set;
  std::vector<DraftSource> sources;
  std::vector<DraftExampleChild> children;
  std::vector<DraftWorkedExample> examples;
};

}  // namespace rushlight
