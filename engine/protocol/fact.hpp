#pragma once

#include <optional>
#include <string>
#include <vector>

#include "finding/finding.hpp"
#include "protocol/text.hpp"

namespace rushlight {

enum class FactKind : std::uint8_t {
  choice,          // yes-no is a choice of yes and no
  ordered_choice,  // from least to worst
  count,
  glucose,
  ketones,
  time_since,
  age,             // from the child file, like the three below it
  weight,
  insulin,         // total daily dose
};

struct Option {
  std::string name;
  Text text;
  Where where = {};  // of the options of a file
};

/// A question, or something the child file knows.
struct Fact {
  std::string name;
  FactKind kind;
  bool yes_no;
  bool from_child;
  std::vector<Option> options;  // of the choices; at most 62
  Text question;
  std::optional<Text> help;
  Where where;
};

/// The facts nobody is asked stand first in every protocol, in this order, so that their places are known: what the child
/// file knows, then what the journal knows (engine/episode/history.hpp).
enum class ChildFact : std::uint8_t {
  age, weight, total_daily_dose, delivery, rescue, strips, mini_dose_kit, correction_known,
  lows_in_a_day, days_low_at_this_hour, days_high_at_this_hour, protocols_before,
};
inline constexpr std::uint16_t kChildFacts = 12;
inline constexpr ChildFact kPastFacts[] = {ChildFact::lows_in_a_day, ChildFact::days_low_at_this_hour,
                                           ChildFact::days_high_at_this_hour, ChildFact::protocols_before};
constexpr FactId fact_id(ChildFact fact) { return FactId{static_cast<std::uint16_t>(fact)}; }

}  // namespace rushlight
