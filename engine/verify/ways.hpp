#pragma once

#include <optional>
#include <vector>

#include "verify/in_step.hpp"

// Private to engine/verify: what may come of a step of either version, as sets.

namespace rushlight {

using Told = std::vector<bool>;  // by variable: answered since the last deed or wait

struct OneWay {
  Diagrams::Set when;
  Ending to;
  std::vector<Tally> tally;
  bool asks_itself = false;  // what was told counts as told in the step it leads to
};

/// Where one version stands within what the other goes through at the same moment.
struct OneSide {
  StepId step;
  bool leaves;  // its own answers are next, whether or not it has something to do
  Told told;
  std::vector<Tally> tally{};
  std::optional<Ending> ending{};
  std::vector<StepId> passed{};            // gone through at this moment
  std::vector<Diagrams::MapId> counted{};  // what was counted and set back since, in this order
};

class Ways {
 public:
  Ways(const SideBySide& sides, const Space& space, Diagrams& diagrams);

  /// How a night begins: a watch that an answer to the opening sets off, or the first step.
  std::vector<OneWay> first_ways(StepId step, const std::vector<Ask>& opening);
  /// Everything that answering the questions of a step can come to, what was told before at the same moment included.
  std::vector<OneWay> ways_on(const OneSide& standing);
  /// What may be told while a step waits and leads on at once.
  std::vector<OneWay> early_ways(StepId step);
  /// A danger told just before is known where one comes to, and leads away from there unless it is handled.
  std::vector<OneWay> ways_at_rest(const OneSide& standing);
  /// What comes of these things told out of turn.
  std::vector<OneWay> when_told(StepId step, const Told& told);
  std::vector<Told> tellings() const;

  OneSide stepped(const OneWay& way, const Told& told, const std::vector<Tally>& before,
                  std::vector<Diagrams::MapId> counted = {});
  OneSide further(const OneSide& standing, const OneWay& way);

  /// Where one version has something to do, the other is looked at in the same step, even if it only asks there.
  bool rests_beside(const OneSide& standing, const OneSide& other) const;
  /// Whether it makes a difference that an answer is news.
  bool may_be_known(StepId step) const;
  /// From here on all answers that may be fresh from before are.
  void known_before(bool known) { known_before_ = known; }

  Told nothing_told() const;
  const Told& everything_told() const { return told_; }
  Told asked_in(const std::vector<Ask>& asks) const;
  Diagrams::Set freed(Diagrams::Set set, const Told& facts);

 private:
  bool is_told(std::size_t v) const;
  bool is_own(StepId step, std::size_t watch) const;
  Told questions_of(const Conditions& conditions) const;
  static bool is_within(const Told& some, const Told& all);
  static Told together(Told some, const Told& others);
  Ending ending_of(const Rule& rule) const;
  void add_watches(StepId from, const std::vector<WatchId>& handled, const Told& told, const Told& news,
                   Diagrams::Set& taken, std::vector<OneWay>& ways);
  Diagrams::Set holding_of(const Step& step, const Rule& rule);
  OneWay way_of(Diagrams::Set when, const Rule& rule) const;
  Diagrams::Set before_counting(Diagrams::Set set, const std::vector<Diagrams::MapId>& counted);
  void count(std::vector<Diagrams::MapId>& counted, CounterId counter, bool back_to_none);
  Told news_of(const OneSide& standing) const;
  bool is_passed_unseen(const OneSide& standing) const;
  bool is_at_rest(const OneSide& standing) const;
  bool rests(const OneSide& standing) const;

  const SideBySide& sides_;
  const Protocol& protocol_;
  const Space& space_;
  Diagrams& diagrams_;
  std::vector<Diagrams::Set> watch_holds_;
  std::vector<Told> watch_reads_, asked_;  // by watch, by step
  std::vector<std::vector<Diagrams::Set>> rule_holds_;
  Told told_;  // everything that can be told
  bool known_before_ = false;
};

}  // namespace rushlight
