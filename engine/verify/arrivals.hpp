#pragma once

#include <map>
#include <string>
#include <tuple>
#include <unordered_map>
#include <utility>

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
  std::uint32_t ends = 0;                       // equal ends have equal numbers
  std::optional<std::uint32_t> other_tally{};   // the same of the two tallies, where they differ
};

/// An arrival, and which of some cases come to it.
struct Met {
  const Arrival* arrival;
  Diagrams::Set where;
};

/// Follows both versions from where they stand within a moment until each has something to do or to wait for.
class Arrivals {
 public:
  Arrivals(const SideBySide& sides, Diagrams& diagrams, Ways& ways)
      : sides_(sides), protocol_(sides.both), diagrams_(diagrams), ways_of_(ways) {}

  /// What these cases come to. What comes to the same is one.
  std::vector<Arrival> of(OneSide was, OneSide now, Diagrams::Set where);
  /// The same of some cases among many that `held` holds, which are followed once: dangers told in any step lead to the
  /// same few, and most steps are entered with the same cases.
  const std::vector<Met>& met_by(Diagrams::Set cases, const OneSide& was, const OneSide& now, Diagrams::Set held);

  bool gave_up() const { return gave_up_; }

 private:
  void follow(OneSide was, OneSide now, Diagrams::Set where, std::size_t depth, std::vector<Arrival>& arrivals);
  void arrive(OneSide was, OneSide now, Diagrams::Set where, std::size_t depth, std::vector<Arrival>& arrivals);
  void add(Arrival arrival, std::vector<Arrival>& arrivals);
  const std::vector<std::size_t>& beside(const std::vector<OneWay>& was, std::size_t way,
                                         const std::vector<OneWay>& now);

  const SideBySide& sides_;
  const Protocol& protocol_;
  Diagrams& diagrams_;
  Ways& ways_of_;
  struct Standings {
    OneSide was, now;
    Diagrams::Set held;
    friend bool operator==(const Standings&, const Standings&) = default;
  };
  struct Hash {
    std::size_t operator()(const Standings& both) const {
      const auto hash = [](const OneSide& side) {
        return std::hash<Told>{}(side.told) + std::hash<Told>{}(side.news) * 31U +
               std::hash<Told>{}(side.unused) * 37U + side.step.index;
      };
      return hash(both.was) * 0x9E3779B97F4A7C15U + hash(both.now) + both.held;
    }
  };
  struct Followed {
    std::vector<Arrival> all;
    std::unordered_map<Diagrams::Set, std::vector<Met>> met;
  };
  std::unordered_map<Standings, Followed, Hash> found_;
  // Which ways of the newer some case takes beside one of the older: a few of many, asked for again and again.
  using Rows = std::vector<std::optional<std::vector<std::size_t>>>;
  std::map<std::pair<const std::vector<OneWay>*, const std::vector<OneWay>*>, Rows> beside_;
  // What each end, and each pair of tallies that differ, is called.
  using Ends = std::tuple<int, std::uint16_t, std::string>;
  std::map<std::pair<Ends, Ends>, std::uint32_t> ends_;
  std::map<std::pair<std::vector<Tally>, std::vector<Tally>>, std::uint32_t> tallies_;
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
