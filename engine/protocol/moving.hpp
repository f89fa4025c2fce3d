#pragma once

#include <optional>
#include <string>
#include <vector>

#include "protocol/protocol.hpp"

// Private to engine/protocol: putting one protocol into another.

namespace rushlight {

/// Where the things of one protocol lie in another that holds it.
struct Offsets {
  std::vector<FactId> facts;  // by where they lay, as the next four
  std::vector<TimerId> timers;
  std::vector<CounterId> counters;
  std::vector<MarkId> marks;
  std::vector<ActionId> deeds;  // the action that stands for it where a condition asks what was given
  std::vector<std::vector<std::uint16_t>> options;  // by fact; empty: they lie where they lay
  std::uint16_t sources = 0, thresholds = 0, doses = 0, watches = 0, actions = 0, steps = 0;
};

/// The ids of so many things, one behind another.
template <class IdType>
std::vector<IdType> behind(std::size_t things, std::size_t first) {
  std::vector<IdType> ids;
  for (std::size_t i = 0; i < things; ++i) ids.push_back(IdType{static_cast<std::uint16_t>(first + i)});
  return ids;
}

/// Gives every id of one protocol its place in the whole.
class Moving {
 public:
  explicit Moving(const Offsets& offsets) : by_(offsets) {}

  void operator()(SourceId& id) const { id = moved(id, by_.sources); }
  void operator()(ThresholdId& id) const { id = moved(id, by_.thresholds); }
  void operator()(FactId& id) const { id = by_.facts[id.index]; }
  void operator()(DoseId& id) const { id = moved(id, by_.doses); }
  void operator()(TimerId& id) const { id = by_.timers[id.index]; }
  void operator()(CounterId& id) const { id = by_.counters[id.index]; }
  void operator()(MarkId& id) const { id = by_.marks[id.index]; }
  void operator()(WatchId& id) const { id = moved(id, by_.watches); }
  void operator()(ActionId& id) const { id = moved(id, by_.actions); }
  void operator()(StepId& id) const { id = moved(id, by_.steps); }

  template <class Thing>
  void operator()(std::optional<Thing>& thing) const {
    if (thing) (*this)(*thing);
  }
  template <class Thing>
  void operator()(std::vector<Thing>& things) const {
    for (Thing& thing : things) (*this)(thing);
  }

  void operator()(Text& text) const {
    for (Template& line : text.line) {
      for (Piece& piece : line) {
        if (auto* threshold = std::get_if<ThresholdId>(&piece)) (*this)(*threshold);
        if (auto* dose = std::get_if<DoseId>(&piece)) (*this)(*dose);
      }
    }
  }
  void operator()(Condition& condition) const {
    std::visit([this](auto& test) { test_moved(test); }, condition.test);
  }
  void operator()(Threshold& threshold) const { all(threshold.label, threshold.note, threshold.source); }
  void operator()(Food& food) const { all(food.name, food.carbohydrate, food.step, food.when, food.source); }
  void operator()(DoseRow& row) const {
    std::visit([this](auto& cell) { cell_moved(cell); }, row.cell);
    all(row.least, row.most, row.most_percent, row.most_per_kg, row.when, row.source);
  }
  void operator()(InsulinLimits& limits) const { all(limits.no_stacking, limits.floor, limits.fresh); }
  void operator()(Dose& dose) const { all(dose.label, dose.to, dose.insulin, dose.rows); }
  void operator()(Timer& timer) const { all(timer.label); }
  void operator()(Counter&) const {}
  void operator()(Mark& mark) const { all(mark.fact, mark.rise_over); }
  void operator()(Ask& ask) const { all(ask.fact, ask.fresh); }
  void operator()(Sign& sign) const {
    sign.option = option_moved(sign.fact, static_cast<std::uint16_t>(sign.option));
    all(sign.fact, sign.text);
  }
  void operator()(Watch& watch) const { all(watch.when, watch.go, watch.source, watch.also); }
  void operator()(OutcomeRule& rule) const { all(rule.go); }
  void operator()(Action& action) const {
    all(action.step, action.text, action.when, action.dose, action.counts, action.stops, action.source);
    for (std::optional<OutcomeRule>& rule : action.on) (*this)(rule);
    if (action.records) {
      action.records->option = option_moved(action.records->fact, action.records->option);
      all(action.records->fact);
    }
    if (action.starts) all(action.starts->timer, action.starts->lasts);
    if (action.call) all(action.call->answer_within);
  }
  void operator()(Wait& wait) const {
    all(wait.timer, wait.lasts, wait.after, wait.start_within, wait.insulin_again, wait.overdue, wait.go);
  }
  void operator()(Rule& rule) const { all(rule.when, rule.go, rule.resets, rule.source, rule.sets); }
  void operator()(Step& step) const {
    all(step.headline, step.actions, step.asks, step.wait, step.rules, step.handles, step.counts, step.source);
  }
  void operator()(PastLimits& past) const { all(past.low, past.high, past.near); }
  void operator()(Part& part) const {
    all(part.start, part.opening, part.daily_dose_fresh, part.past, part.hourly_fluid);
    part.first_step = static_cast<std::uint16_t>(part.first_step + by_.steps);
    part.first_watch = static_cast<std::uint16_t>(part.first_watch + by_.watches);
  }

 private:
  template <class IdType>
  static IdType moved(IdType id, std::uint16_t by) {
    return IdType{static_cast<std::uint16_t>(id.index + by)};
  }
  std::uint16_t option_moved(FactId before, std::uint16_t option) const {
    if (before.index >= by_.options.size() || option >= by_.options[before.index].size()) return option;
    return by_.options[before.index][option];
  }

  template <class... Things>
  void all(Things&... things) const {
    ((*this)(things), ...);
  }

  void test_moved(Compares& test) const { all(test.fact, test.limit); }
  void test_moved(Is& test) const {
    std::uint64_t options = test.options & kUnknownBit;
    for (std::uint16_t i = 0; i < 63; ++i) {
      if ((test.options >> i & 1U) != 0) options |= std::uint64_t{1} << option_moved(test.fact, i);
    }
    test.options = options;
    all(test.fact);
  }
  void test_moved(CountedAtLeast& test) const { all(test.counter, test.limit); }
  void test_moved(WasGiven& test) const { test.action = by_.deeds[test.action.index]; }
  void test_moved(WithinClock& test) const { all(test.from, test.up_to); }
  void test_moved(HasChanged& test) const { all(test.mark); }

  void cell_moved(DoseRow::Fixed& cell) const { all(cell.amount, cell.share); }
  void cell_moved(DoseRow::PerKilogram& cell) const { all(cell.amount, cell.over, cell.plus); }
  void cell_moved(DoseRow::PerYear& cell) const { all(cell.amount); }
  void cell_moved(DoseRow::OfDailyDose& cell) const { all(cell.percent); }
  void cell_moved(DoseRow::Correction& cell) const { all(cell.target, cell.times); }
  void cell_moved(DoseRow::OfDose& cell) const { all(cell.dose, cell.during, cell.times); }
  void cell_moved(DoseRow::LargerOf& cell) const { all(cell.one, cell.other); }
  void cell_moved(DoseRow::Withheld& cell) const { all(cell.reason); }

  const Offsets& by_;
};

}  // namespace rushlight
