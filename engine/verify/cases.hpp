#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "verify/space.hpp"

namespace rushlight {

// A set of children, readings and answers as a person can read it, and as a program can test it.

/// Numbers between two ends; an absent end is open. Micros, seconds, months, minutes or counts as in Stretch. What lies
/// below every end a meter shows as LO, and above every end as HI.
struct Interval {
  std::optional<std::int64_t> from, up_to;
  bool with_from = true, with_up_to = false;
  friend bool operator==(const Interval&, const Interval&) = default;
};

/// The border itself, or all that lies between the two borders beside the value. Borders in their order.
Interval interval_around(const std::vector<std::int64_t>& borders, std::int64_t value);

/// What a region asks of one thing: one of these numbers, or of these options, or that nobody can tell.
struct CaseLimit {
  Subject subject;
  std::vector<Interval> intervals;
  std::vector<std::uint16_t> options;
  bool cant_tell = false;
  friend bool operator==(const CaseLimit&, const CaseLimit&) = default;
};

/// All of them hold; none means everybody.
struct Cases {
  GlucoseUnit unit;
  std::vector<CaseLimit> limits;
  friend bool operator==(const Cases&, const Cases&) = default;
};

/// As few overlapping regions as a greedy search finds, that together are `set` as far as `within` goes; what `within`
/// holds anyway is not named. Empty when there are more than `most`.
std::optional<std::vector<Diagrams::Choices>> regions_of(const Space& space, Diagrams& diagrams, Diagrams::Set set,
                                                         Diagrams::Set within, std::size_t most);
/// Of the first few of those regions the one that names least.
Diagrams::Choices plainest_region_of(const Space& space, Diagrams& diagrams, Diagrams::Set set, Diagrams::Set within);
/// The smallest region around all the sets; what some of `within` hold anyway is not named.
Diagrams::Choices region_around(const Space& space, Diagrams& diagrams, const std::vector<Diagrams::Set>& sets,
                                const std::vector<Diagrams::Set>& within);
/// The same regions by their borders.
std::vector<Cases> cases_of(const Space& space, const std::vector<Diagrams::Choices>& regions);

/// "glucose 65 to 69 mg/dL", "awake: no or can't tell", "`low-treatments` counted 2 or more".
std::string in_words(const Protocol& protocol, const CaseLimit& limit, GlucoseUnit unit);

/// "65 to 69 mg/dL" without the name.
std::string value_words(const Protocol& protocol, const CaseLimit& limit, GlucoseUnit unit);

}  // namespace rushlight
