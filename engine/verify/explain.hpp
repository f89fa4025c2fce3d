#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "verify/example_path.hpp"

namespace rushlight {

/// What the id of a step, of a rule ("treat/2") or of a watch rule ("will-not-wake", "watch/will-not-wake") names in
/// the protocol's own file; empty when nothing has that name.
std::vector<Sought> sought_named(const Protocol& protocol, std::string_view id);
/// Every id that can be asked for, for a suggestion.
std::vector<std::string> names_to_explain(const Protocol& protocol);

/// A way that leads straight there.
struct WayIn {
  StepId from;        // for a watch rule: the step it leads to, and `words` say that it is every step
  std::string words;  // "rule 2: glucose below 54 mg/dL or 3.0 mmol/L (`very-low`)"
  Where where;
};

/// For whom an example was found: the values of one thing in the child file that all lead there, when not all do.
struct OnlyFor {
  std::string trait;                // "delivery"
  std::vector<std::string> values;  // "pump"
};

/// Who comes to a step or a rule, by which answers, and one example. `example` is absent when none was found: then the
/// bound was reached, or there is no way at all.
struct Explanation {
  Sought sought;
  std::vector<WayIn> ways;
  std::vector<OnlyFor> only_for;
  std::optional<Example> example;
  bool gave_up = false;
};

Explanation explained(const Protocol& protocol, const Sought& sought);

/// The example alone: of the usual child if there is one, otherwise of a child that differs in one thing, or in two.
Sighting example_for(const Protocol& protocol, const Sought& sought);

}  // namespace rushlight
