#pragma once

#include <map>
#include <optional>
#include <vector>

#include "verify/program.hpp"

// Private to engine/verify.

namespace rushlight {

/// Every night a program allows, from its first step on, followed together: a visit is one step with all the
/// combinations in which it is entered at one time. `Stops` says at which steps nobody looks further.
class Nights {
 public:
  struct From {
    std::size_t visit;
    std::size_t move;  // of that visit's step
  };
  struct Visit {
    StepId step;
    Duration at;  // 0 unless timed
    Diagrams::Set set;
    std::vector<From> from;  // empty at the start
  };
  /// A move that leads to a step where nobody looks further, or out of the protocol.
  struct End {
    std::size_t visit;
    std::size_t move;
    Duration at;
  };

  /// With `timed`, combinations that reach a step later than before are followed anew, so every night's longest time is
  /// found; else each is followed once. Gives up after `most` visits.
  Nights(const Space& space, Diagrams& diagrams, Program& program, StepId start, std::vector<bool> stops, bool timed,
         std::size_t most);

  bool gave_up() const { return gave_up_; }
  const std::vector<Visit>& visits() const { return visits_; }
  const std::vector<End>& ends() const { return ends_; }
  /// All combinations with which the step is entered.
  Diagrams::Set reached(StepId step) const;

  /// The combinations from which a night goes on for ever without coming to an end, by step; all empty when none does.
  std::vector<Diagrams::Set> going_round() const;

  /// One night to a visit: the visits on the way with the combination each was entered with, and the move that was
  /// taken.
  struct Stage {
    std::size_t visit;
    Diagrams::Values entered;
    std::optional<std::size_t> move;  // none where the night stands
  };
  std::vector<Stage> night_to(std::size_t visit, Diagrams::Set within) const;
  std::vector<Stage> night_to(const End& end) const;

 private:
  struct Pending {
    Diagrams::Set set = Diagrams::kNone;
    std::vector<From> from;
  };

  void order_steps(StepId start);
  void follow(StepId start);
  void enter(StepId step, Duration at, Pending pending);
  Diagrams::Set news(StepId step, Duration at, Diagrams::Set set);

  Diagrams& diagrams_;
  Program& program_;
  std::vector<bool> stops_;
  bool timed_;
  std::size_t most_;
  bool gave_up_ = false;
  std::vector<std::size_t> place_of_;  // by step: when its turn comes
  std::map<std::pair<std::size_t, std::uint16_t>, std::map<Duration, Pending>> pending_;
  std::vector<std::map<Duration, Diagrams::Set>> latest_;  // by step: with what it is entered at last at this time
  std::vector<Visit> visits_;
  std::vector<End> ends_;
};

}  // namespace rushlight
