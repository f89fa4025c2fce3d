#pragma once

#include <map>
#include <set>
#include <sstream>

#include "tests/spin/promela.hpp"
#include "tests/spin/told_values.hpp"

// Private to promela.cpp.

namespace rushlight::tests {

/// Writes one flow as a proctype.
class FlowWriter {
 public:
  /// `number` among the flows; its events are counted from `first_event` on.
  FlowWriter(const Flow& flow, std::size_t number, std::size_t first_event);

  std::string text();
  const std::vector<std::string>& events() const { return events_; }

 private:
  using By = Leading::By;
  using Subjects = std::set<Subject, SubjectOrder>;
  struct Move {
    By by;
    std::uint16_t index;
    Outcome outcome;
  };
  /// A rule that visits another protocol of a linked set, and the step it comes back to.
  struct Visit {
    StepId step;
    std::uint16_t rule;
    StepId back;
  };

  // What is known, and what a value may be.
  bool stays(const Subject& subject) const;
  bool is_picked(const Subject& subject) const;
  bool is_loose(const Subject& subject) const;
  bool is_told_to_stay(const Subject& subject) const;
  bool is_kept(StepId id, By by, const Subject& subject) const;
  void find_what_may_be_known();
  void find_what_is_read();
  std::string pick_name(const Subject& subject) const;
  void write_picks();
  void pick(const Subject& subject);
  void demand(const std::string& truth, const std::string& otherwise);
  void demand_all(const Conditions& conditions, const std::string& otherwise);
  void set_to_none(const Subject& subject);
  void forget(const Subject& subject);
  void forget_everything_told();
  std::string new_label();
  void see(const std::string& event);

  // A step, and what may happen in it.
  void begin();
  void write_step(StepId id);
  void write_deeds(StepId id);
  bool is_certain(const Watch& watch, const Step* asking) const;
  void pass_watches(StepId id, bool asked);
  void pass_watch(const Watch& watch, const std::string& passed);
  bool is_own(StepId id, std::size_t watch) const;
  void write_rules(StepId id);
  void take_rule(StepId id, By by, std::size_t place, const std::string& otherwise);
  void write_outcomes(StepId id);
  void write_overdue(StepId id);
  void write_watches(StepId id);
  void write_ways_back(StepId id);

  // The way out of one step and into another.
  void write_all_watches();
  void write_watch(std::uint16_t w, const std::string& when, bool ends_visit);
  void option(StepId id, const std::string& when);
  void count(const std::optional<CounterId>& counter);
  void forget_on_the_way(StepId id, By by);
  void take_time(StepId id, const Move& move);
  bool passes_a_wait(StepId id, const Move& move) const;
  void leave(StepId id, const Move& move, std::optional<StepId> to, const std::vector<CounterId>& resets);
  bool is_followed(StepId id) const;
  void go(StepId to);
  void write_entry(StepId id);
  static const Ask* question(const Step& step, std::uint16_t fact);
  static bool handles(const Step& step, std::size_t watch);

  template <class Takes>
  std::string from_where(Takes takes) const {
    std::string truth;
    const std::size_t steps = protocol_.steps.size();
    for (std::size_t s = 0; s < steps;) {
      std::size_t end = s;
      while (end < steps && takes(StepId{static_cast<std::uint16_t>(end)})) ++end;
      if (end - s == steps) return "true";
      if (end > s) {
        truth += (truth.empty() ? "(from >= " : " || from >= ") + std::to_string(s) +
                 " && from <= " + std::to_string(end - 1);
      }
      s = end + 1;
    }
    return truth.empty() ? "false" : truth + ")";
  }

  const Flow& flow_;
  const Protocol& protocol_;
  std::string number_;
  std::size_t first_event_;
  ToldValues values_;
  std::ostringstream picks_, out_;
  Subjects taken_back_;            // that some step takes from before
  std::vector<Subjects> known_;    // by step: what may be known from before
  std::vector<Subjects> read_;     // by step: what is taken back there or further on, before it is asked anew
  std::vector<Subjects> brought_;  // by step: the same, with what it asks anew
  Subjects told_, surely_picked_;  // on the way that is being written: by some, by all who come that way
  std::vector<Visit> visits_;
  std::map<std::string, std::size_t> numbers_;
  std::vector<std::string> events_;
  std::size_t labels_ = 0;
};

}  // namespace rushlight::tests
