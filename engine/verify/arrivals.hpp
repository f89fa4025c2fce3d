#pragma once

#include <optional>
#include <unordered_map>
#include <utility>
#include <vector>

#include "verify/one_sides.hpp"

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
  bool together = true;                        // the two ends are the same
  std::uint64_t ends = 0;                      // equal ends have equal numbers
  OneSides::TallyId was_tally{}, now_tally{};  // of what ends together
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
      : sides_(sides), protocol_(sides.both), diagrams_(diagrams), one_sides_(sides, ways) {}

  /// What these cases come to. What comes to the same is one.
  std::vector<Arrival> of(OneSides::Next was, OneSides::Next now, Diagrams::Set where);
  /// The same of some cases among many that `held` holds, which are followed once: dangers told in any step lead to the
  /// same few, and most steps are entered with the same cases.
  const std::vector<Met>& met_by(Diagrams::Set cases, OneSides::Next was, OneSides::Next now, Diagrams::Set held);

  OneSides& one_sides() { return one_sides_; }
  bool gave_up() const { return gave_up_; }

 private:
  /// A place gone through at this moment, and those before.
  struct Passed {
    std::uint32_t here;
    const Passed* before;
  };
  /// A case comes here if it is one of the cases of both: they are brought together where both arrive. What one version
  /// does with a case is found once beside all that the other may do.
  struct Stand {
    OneSides::Id at;
    OneSides::TallyId tally;
    Diagrams::Set cases;
    const Passed* passed;
  };
  struct Onto {
    OneSides::Next next;
    Diagrams::Set cases;
  };
  struct Branch {
    Onto was, now;
  };
  bool has_passed(const Stand& stand) const;
  Stand led_on(const Stand& stand, const Onto& onto, const Passed& here);
  /// Those from `first` on are of the pair that is followed.
  void add_branch(std::size_t first, const Branch& added);

  void follow(const Stand& was, const Stand& now, std::size_t depth);
  void arrive(const Stand& was, const Stand& now, std::size_t depth);
  void add(Arrival arrival);
  std::uint8_t calls_in(const Ending& ending) const;
  /// Which of some cases take a way on.
  struct Part {
    std::size_t way;
    Diagrams::Set cases;
  };
  struct Parts {
    std::size_t first, end;
  };
  Parts parts_of(Diagrams::Set cases, const OneSides::Onward& onward);
  // Which ways of the newer some case takes beside one of the older: a few of many, asked for again and again.
  using Rows = std::vector<std::vector<bool>>;
  const std::vector<bool>& beside(Rows& rows, const OneSides::Onward& was, std::size_t way,
                                  const OneSides::Onward& now);

  const SideBySide& sides_;
  const Protocol& protocol_;
  Diagrams& diagrams_;
  OneSides one_sides_;
  std::vector<Arrival> arrivals_;  // of what is followed
  std::vector<Branch> branches_;   // that are still to be followed
  struct Start {
    OneSides::Next was, now;
    Diagrams::Set held;
    friend bool operator==(const Start&, const Start&) = default;
  };
  struct Hash {
    std::size_t operator()(const Start& start) const {
      std::uint64_t hash = start.held;  // a script's size_t has 32 bits
      for (const std::uint32_t each : {start.was.to, start.was.tally, start.now.to, start.now.tally})
        hash = hash * 0x9E3779B97F4A7C15U + each;
      return static_cast<std::size_t>(hash ^ hash >> 32U);
    }
  };
  struct Followed {
    std::vector<Arrival> all;
    std::unordered_map<Diagrams::Set, std::vector<Met>> met;
  };
  std::unordered_map<Start, Followed, Hash> found_;
  std::unordered_map<std::uint64_t, Rows> beside_;        // by the numbers of two lists of ways
  std::unordered_map<std::uint64_t, Parts> parts_known_;  // by the cases and the number of the list
  std::vector<Part> parts_;
  std::size_t turns_ = 0;
  bool gave_up_ = false;
};

/// Calls `visit` with the places of ways of the one that can be taken beside ways of the other, and for which cases.
template <class Visit>
void each_pair(Diagrams& diagrams, const std::vector<OneWay>& was, const std::vector<OneWay>& now, Diagrams::Set where,
               Visit visit) {
  for (std::size_t i = 0; i < was.size(); ++i) {
    const Diagrams::Set part = diagrams.both(where, was[i].when);
    if (part == Diagrams::kNone) continue;
    // The ways of a step exclude each other: beside the very same set there is no second.
    if (i < now.size() && now[i].when == was[i].when) {
      visit(i, i, part);
      continue;
    }
    for (std::size_t j = 0; j < now.size(); ++j) {
      const Diagrams::Set set = diagrams.both(part, now[j].when);
      if (set != Diagrams::kNone) visit(i, j, set);
    }
  }
}

}  // namespace rushlight
