#pragma once

#include <unordered_map>

#include "verify/ways.hpp"

// Private to engine/verify: what both versions come to within one moment.

namespace rushlight {

/// One thing that happens on the way of both, and for which cases.
struct Arrival {
  enum class Kind : std::uint8_t {
    passes,   // both only ask in the same step, and go on
    puts_in,  // one goes through a step that only it has
    ends,     // both come to what they wait for, or to the end of their ways
  } kind;
  Diagrams::Set where;
  Together steps{};  // passed, or put in: then both are that step
  Ending was{}, now{};
  std::vector<Tally> was_tally{}, now_tally{};  // in their order
  bool together = true;                         // the two ends are the same
};

/// Follows both versions from where they stand within a moment until each has something to do or to wait for.
class Arrivals {
 public:
  Arrivals(const SideBySide& sides, Diagrams& diagrams, Ways& ways)
      : sides_(sides), protocol_(sides.both), diagrams_(diagrams), ways_of_(ways) {}

  /// What these cases come to. What comes to the same is one.
  std::vector<Arrival> of(OneSide was, OneSide now, Diagrams::Set where);
  /// The same of all cases, found once: dangers told in any step lead to the same few.
  const std::vector<Arrival>& of_all(const OneSide& was, const OneSide& now);

  bool gave_up() const { return gave_up_; }

 private:
  void follow(OneSide was, OneSide now, Diagrams::Set where, std::size_t depth, std::vector<Arrival>& arrivals);
  void arrive(OneSide was, OneSide now, Diagrams::Set where, std::size_t depth, std::vector<Arrival>& arrivals);
  void add(Arrival arrival, std::vector<Arrival>& arrivals);

  const SideBySide& sides_;
  const Protocol& protocol_;
  Diagrams& diagrams_;
  Ways& ways_of_;
  struct Standings {
    OneSide was, now;
    friend bool operator==(const Standings&, const Standings&) = default;
  };
  struct Hash {
    std::size_t operator()(const Standings& both) const {
      const auto hash = [](const OneSide& side) {
        return std::hash<Told>{}(side.told) + std::hash<Told>{}(side.news) * 31U + side.step.index;
      };
      return hash(both.was) * 0x9E3779B97F4A7C15U + hash(both.now);
    }
  };
  std::unordered_map<Standings, std::vector<Arrival>, Hash> found_;
  std::size_t turns_ = 0;
  bool gave_up_ = false;
};

/// Calls `visit` with the ways of the one that can be taken beside ways of the other, and for which cases.
template <class Visit>
void each_pair(Diagrams& diagrams, const std::vector<OneWay>& was, const std::vector<OneWay>& now, Diagrams::Set where,
               Visit visit) {
  for (std::size_t i = 0; i < was.size(); ++i) {
    const Diagrams::Set part = diagrams.both(where, was[i].when);
    if (part == Diagrams::kNone) continue;
    // The ways of a step exclude each other: beside the very same set there is no second.
    if (i < now.size() && now[i].when == was[i].when) {
      visit(was[i], now[i], part);
      continue;
    }
    for (const OneWay& other : now) {
      const Diagrams::Set set = diagrams.both(part, other.when);
      if (set != Diagrams::kNone) visit(was[i], other, set);
    }
  }
}

}  // namespace rushlight
