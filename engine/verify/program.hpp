#pragma once

#include <optional>
#include <vector>

#include "verify/space.hpp"

// Private to engine/verify: what may happen in each step, as sets.

namespace rushlight {

/// How soon people answer, for the time a night takes. Answering itself counts no time.
enum class Promptness : std::uint8_t {
  at_once,  // everything is done and answered when it is asked: waits count
  late,     // as late as the protocol lets it be: the start and overdue allowances count too
};

/// One way on from a step.
struct Leading {
  enum class By : std::uint8_t { rule, early, outcome, overdue, watch, back } by;
  std::uint16_t index = 0;           // of the rule in the step, or of the action or the watch in the protocol
  Outcome outcome = Outcome::given;  // of the action
  std::optional<StepId> to;          // none: another protocol takes over that is not at hand
  Duration takes{0};
  Diagrams::Set when = Diagrams::kAll;    // with what is told in the step
  Diagrams::Set guard = Diagrams::kAll;   // the same, whatever is told in the step that nobody reads afterwards
  Diagrams::GroupId forgotten = 0;        // on entering `to`
  std::vector<Diagrams::MapId> counts{};  // in this order
};

/// The steps of a protocol as moves between sets of combinations, for nights in which some facts stay what they are.
///
/// Every walk of the engine is a walk of the program, so what the program cannot do no child meets. The other way round
/// it is wider in these points: a fact told before a wait, or before something else than a rule led on, is told anew;
/// so is what the clock says, what a mark says and what the journal counts, at every step; an action that counts may or
/// may not be told; a watch rule may fire in every step that does not handle it, whenever nothing that stays forbids
/// it.
class Program {
 public:
  struct Assumed {
    Conditions stays;  // of every answer; what they speak of is told when the night begins
    Promptness answers = Promptness::at_once;
    std::optional<std::vector<CounterId>> counters =
        std::nullopt;  // only these are followed; others may stand anywhere
  };

  Program(const Space& space, Diagrams& diagrams, Assumed assumed);

  /// The moves of a step, made when they are first asked for.
  const std::vector<Leading>& moves_of(StepId step);

  /// The combinations an episode begins with: any child, nothing counted or done, no visit.
  Diagrams::Set at_start_of(StepId start);

  /// Whether what was told of the variable before the step is entered may still be read there or further on.
  bool remembers(StepId step, std::size_t place) const { return remembered_[step.index][place]; }
  /// With what its actions count while one is in the step; each may be told any number of times.
  Diagrams::Set with_deeds(Diagrams::Set entered, StepId step);
  Diagrams::Set after(Diagrams::Set entered, StepId step, const Leading& move);
  /// The combinations on entering the step from which the move leads into `wanted`.
  Diagrams::Set before(Diagrams::Set wanted, StepId step, const Leading& move);

 private:
  using Facts = std::vector<bool>;  // by variable
  using Times = std::vector<std::pair<Diagrams::Set, Duration>>;
  struct Deed {
    Diagrams::Set applies;
    Diagrams::MapId counts;
  };

  bool is_told(std::size_t place) const;
  bool follows(CounterId counter) const;
  void find_what_is_remembered();
  std::vector<Leading> made(StepId step);
  void add_rules(StepId step, std::vector<Leading>& moves);
  void add_outcomes(StepId step, std::vector<Leading>& moves);
  void add_watches(StepId step, std::vector<Leading>& moves);
  void add_ways_back(StepId step, std::vector<Leading>& moves);
  void add_rule(StepId step, std::vector<Leading>& moves, Leading move, const Rule& rule);
  void add(StepId step, std::vector<Leading>& moves, Leading move);
  Diagrams::Set watches_before(StepId step, std::size_t before, bool asked_too);
  const std::vector<Deed>& deeds_of(StepId step);
  Facts kept_over(StepId step, const Leading& move) const;
  const Times& times_of(StepId step, Leading::By by);
  void count(std::vector<Diagrams::MapId>& counts, CounterId counter);
  void reset(std::vector<Diagrams::MapId>& counts, CounterId counter);
  Diagrams::MapId visit_becomes(std::size_t visit);

  const Space& space_;
  const Protocol& protocol_;
  Diagrams& diagrams_;
  Assumed assumed_;
  Diagrams::Set stays_;
  std::vector<FactId> told_before_;  // that the night begins with
  Facts told_;                       // the variables that are told anew
  Diagrams::GroupId all_told_;       // the same
  std::vector<Diagrams::Set> watch_holds_;
  std::vector<Facts> remembered_;  // by step
  std::vector<std::optional<std::vector<Leading>>> moves_;
  std::vector<std::optional<Times>> times_, times_of_outcomes_;  // by step
  std::vector<std::optional<std::vector<Deed>>> deeds_;
};

}  // namespace rushlight
