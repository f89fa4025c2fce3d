#pragma once

#include <bitset>
#include <cstdint>
#include <optional>
#include <unordered_map>
#include <vector>

#include "verify/in_step.hpp"

// Private to engine/verify: what may come of a step of either version, as sets.

namespace rushlight {

// More things than a protocol has to tell; walked_in_step gives up where it has not room.
inline constexpr std::size_t kMostThings = 512;
using Told = std::bitset<kMostThings>;  // by variable: answered since the last deed or wait

struct OneWay {
  Diagrams::Set when;
  Ending to;
  std::vector<Tally> tally;
  bool asks_itself = false;                         // what was told counts as told in the step it leads to
  std::optional<std::size_t> watch = std::nullopt;  // that leads this way
  bool at_once = false;                             // before the step asks anything
};

/// Where one version stands within what the other goes through at the same moment.
struct OneSide {
  StepId step;
  bool leaves;  // its own answers are next, whether or not it has something to do
  bool known;   // all answers that may be fresh from before are
  Told told{};
  Told news{};    // of that what a watch for news has still to hear: told by the same answer as led here
  Told unused{};  // the same for early rules: what no rule has led on with, whatever watch has heard it
  std::optional<Ending> ending{};
  std::vector<Diagrams::MapId> counted{};  // what was counted and set back since the occasion came, in this order
  friend bool operator==(const OneSide&, const OneSide&) = default;
};

/// Where a way leads, and what is counted, set back and marked on it.
struct Gone {
  OneSide to;
  std::vector<Tally> tally;
};

class Ways {
 public:
  Ways(const SideBySide& sides, const Space& space, Diagrams& diagrams);

  /// How a night begins: a watch that an answer to the opening sets off, or the first step.
  std::vector<OneWay> first_ways(StepId step, const std::vector<Ask>& opening);
  /// Everything that answering the questions of a step can come to, what was told before at the same moment included.
  const std::vector<OneWay>& ways_on(const OneSide& standing);
  /// What may be told while a step waits and leads on at once.
  std::vector<OneWay> early_ways(StepId step);
  /// A danger told just before is known where one comes to, and leads away from there unless it is handled.
  const std::vector<OneWay>& ways_at_rest(const OneSide& standing);
  /// What comes of these things told out of turn.
  std::vector<OneWay> when_told(StepId step, const Told& told);
  std::vector<Told> tellings() const;
  /// What holds wherever the way is taken, in whatever step: its watch; of any other, all.
  Diagrams::Set held_by(const OneWay& way) const { return way.watch ? watch_holds_[*way.watch] : Diagrams::kAll; }

  /// The beginning of a way. `news`: what was told by the answer that leads this way; a watch for news has heard what
  /// it reads.
  Gone begun(const OneWay& way, const Told& told, const Told& news) const {
    return stepped(way, told, news, news, false, {});
  }
  Gone further(const OneSide& standing, const OneWay& way) const;

  /// It has something to do or to wait for where it stands, or asks once more what has just been told.
  bool is_at_rest(const OneSide& standing) const;
  /// All that it asks has just been answered: nobody gets to see what else is to be done there.
  bool is_passed_unseen(const OneSide& standing) const;
  /// Whether it makes a difference that an answer is news.
  bool may_be_known(StepId step) const;

  const Told& everything_told() const { return told_; }
  Told asked_in(const std::vector<Ask>& asks) const;
  Diagrams::Set freed(Diagrams::Set set, const Told& facts);

 private:
  struct Counting {
    std::optional<Diagrams::MapId> one_more, back_to_none;  // none: nothing reads it
  };
  bool is_told(std::size_t v) const;
  bool is_own(StepId step, std::size_t watch) const;
  Told questions_of(const Conditions& conditions) const;
  std::optional<Told> early_reads_of(const Rule& rule) const;
  static bool is_within(const Told& some, const Told& all);
  Ending ending_of(const Rule& rule) const;
  /// `counted`: what was counted since the occasion came; a watch reads the counters as they are now.
  void add_watches(StepId from, const std::vector<WatchId>& handled, const Told& told, const Told& news,
                   const std::vector<Diagrams::MapId>& counted, Diagrams::Set& taken, std::vector<OneWay>& ways);
  /// What is known where one comes to leads away before anything is asked.
  void add_watches_at_once(const OneSide& standing, Diagrams::Set& taken, std::vector<OneWay>& ways);
  Diagrams::Set holding_of(const Step& step, const Rule& rule);
  OneWay way_of(Diagrams::Set when, const Rule& rule) const;
  Diagrams::Set before_counting(Diagrams::Set set, const std::vector<Diagrams::MapId>& counted);
  Counting counting_of(CounterId counter) const;
  Told open_in(const OneSide& standing) const;
  Told left_with(const OneSide& standing, const OneWay& way, const Told& before) const;
  void add_early_at_once(const OneSide& standing, Diagrams::Set& taken, std::vector<OneWay>& ways);
  Gone stepped(const OneWay& way, const Told& told, const Told& news, const Told& unused, bool known,
               std::vector<Diagrams::MapId> counted) const;

  const SideBySide& sides_;
  const Protocol& protocol_;
  const Space& space_;
  Diagrams& diagrams_;
  std::vector<Diagrams::Set> watch_holds_;
  std::vector<Told> watch_reads_;  // by watch
  /// What the questions of a step are, among the variables.
  struct Asked {
    Told all, anew;           // `anew`: asked again whatever is known
    bool any_unread = false;  // one that nothing reads is no variable
  };
  std::vector<Asked> asked_;        // by step
  std::vector<Counting> counting_;  // by counter
  std::vector<std::vector<Diagrams::Set>> rule_holds_;
  // Ways found before: the same step is come to again and again with the same things told.
  struct Standing {
    std::uint16_t step;
    bool rests, known;
    Told told, news, unused;
    std::vector<Diagrams::MapId> counted;
    friend bool operator==(const Standing&, const Standing&) = default;
  };
  struct Hash {
    std::size_t operator()(const Standing& standing) const {
      const std::size_t place = standing.step * 4U + (standing.rests ? 2U : 0U) + (standing.known ? 1U : 0U);
      return std::hash<Told>{}(standing.told) + std::hash<Told>{}(standing.news) * 31U +
             std::hash<Told>{}(standing.unused) * 37U + place * 0x9E3779B97F4A7C15U;
    }
  };
  std::unordered_map<Standing, std::vector<OneWay>, Hash> found_;
  Told told_;                                                  // everything that can be told
  Told awaited_;                                               // everything that a watch for news reads
  std::vector<std::vector<std::optional<Told>>> early_reads_;  // by step and rule; none: it never leads on early
  Told awaited_early_;
};

}  // namespace rushlight
