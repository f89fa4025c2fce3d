#include "verify/space.hpp"

#include <algorithm>

#include "verify/contexts.hpp"
#include "verify/stretches.hpp"

namespace rushlight {

namespace {

bool is_past(FactId fact) {
  return std::any_of(std::begin(kPastFacts), std::end(kPastFacts),
                     [&](ChildFact past) { return fact_id(past) == fact; });
}

// Children first, then what is asked, then what the episode counts: what stays through the night is told apart first.
int rank_of(const Protocol& protocol, const Subject& subject) {
  if (stays_through_the_night(protocol, subject)) return 0;
  return subject.kind == Subject::Kind::counter || subject.kind == Subject::Kind::done ? 2 : 1;
}

}  // namespace

bool stays_through_the_night(const Protocol& protocol, const Subject& subject) {
  return subject.kind == Subject::Kind::fact && protocol.facts[subject.index].from_child &&
         !is_past(FactId{subject.index});
}

Space::Space(const Protocol& protocol, GlucoseUnit unit, const Conditions& also) : protocol_(protocol), unit_(unit) {
  add(also);
  for (const Watch& watch : protocol.watch) add(watch.when);
  for (const Action& action : protocol.actions) add(action.when);
  for (std::size_t s = 0; s < protocol.steps.size(); ++s) {
    const Step& step = protocol.steps[s];
    if (step.wait) {
      add_bands_of(step.wait->lasts);
      add_bands_of(step.wait->overdue);
      if (step.wait->start_within) add_bands_of(*step.wait->start_within);
      if (step.wait->insulin_again) add_bands_of(*step.wait->insulin_again);
    }
    for (std::size_t r = 0; r < step.rules.size(); ++r) {
      const Rule& rule = step.rules[r];
      add(rule.when);
      // "otherwise" takes known answers only.
      for (std::size_t a = 0; a < step.asks.size() && rule.otherwise; ++a) {
        if (!protocol[step.asks[a].fact].from_child) add({Subject::Kind::fact, step.asks[a].fact.index});
      }
      if (rule.enters && rule.hands_over_to.empty())
        visits_.push_back({StepId{static_cast<std::uint16_t>(s)}, static_cast<std::uint16_t>(r)});
    }
  }
  cut();
}

void Space::add(const Subject& subject) {
  if (place_of(subject)) return;
  variables_.push_back(Variable{subject, {}, {}});
  borders_.emplace_back();
}

void Space::add(const Conditions& conditions) {
  for (const Condition& condition : conditions) {
    const Subject subject = subject_of(condition);
    add(subject);
    const std::size_t place = *place_of(subject);
    for (const ThresholdId limit : limits_of(condition)) {
      for (const Band& band : protocol_[limit].bands) borders_[place].insert(number_of(band.value, unit_));
      add_bands_of(limit);
    }
  }
}

void Space::add_bands_of(ThresholdId id) {
  const auto cut_at = [&](const Subject& subject, std::int64_t border) {
    add(subject);
    borders_[*place_of(subject)].insert(border);
  };
  const Subject age{Subject::Kind::fact, fact_id(ChildFact::age).index};
  const Subject weight{Subject::Kind::fact, fact_id(ChildFact::weight).index};
  const Subject clock{Subject::Kind::clock, 0};
  for (const Band& band : protocol_[id].bands) {
    for (const auto& edge : {band.age_from, band.age_up_to}) {
      if (edge) cut_at(age, edge->months());
    }
    for (const auto& edge : {band.weight_from, band.weight_up_to}) {
      if (edge) cut_at(weight, edge->in(kKilogram).micros());
    }
    for (const auto& edge : {band.clock_from, band.clock_up_to}) {
      if (edge) cut_at(clock, edge->minutes());
    }
  }
}

void Space::cut() {
  std::vector<std::size_t> order(variables_.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return rank_of(protocol_, variables_[a].subject) < rank_of(protocol_, variables_[b].subject);
  });
  std::vector<Variable> ordered;
  for (const std::size_t place : order) {
    const Subject& subject = variables_[place].subject;
    Variable variable{subject, {}, {}};
    if (subject.kind == Subject::Kind::counter) {
      const std::int64_t most = borders_[place].empty() ? 0 : std::max<std::int64_t>(0, *borders_[place].rbegin());
      for (std::int64_t count = 0; count <= most; ++count) variable.stretches.push_back({count, false});
    } else {
      Room room;
      if (subject.kind == Subject::Kind::clock) room.up_to = kDayInMinutes;
      variable.stretches =
          stretches_of(protocol_, subject, unit_, room, {borders_[place].begin(), borders_[place].end()});
    }
    if (subject.kind == Subject::Kind::fact && may_be_unknown(protocol_.facts[subject.index]))
      variable.stretches.push_back({0, true});
    variable.borders.assign(borders_[place].begin(), borders_[place].end());
    ordered.push_back(std::move(variable));
  }
  variables_ = std::move(ordered);
  borders_.clear();
}

std::vector<std::uint16_t> Space::sizes() const {
  std::vector<std::uint16_t> sizes;
  for (const Variable& variable : variables_) sizes.push_back(static_cast<std::uint16_t>(variable.stretches.size()));
  sizes.push_back(static_cast<std::uint16_t>(visits_.size() + 1));
  return sizes;
}

bool Space::is_cut_as(const Space& other, const Conditions& also) const {
  const bool same_things =
      std::equal(variables_.begin(), variables_.end(), other.variables_.begin(), other.variables_.end(),
                 [](const Variable& one, const Variable& two) {
                   return one.subject == two.subject && one.stretches.size() == two.stretches.size();
                 });
  const auto is_taken = [&](const auto& each) { return is_taken_as(other, each.when); };
  return same_things && is_taken_as(other, also) &&
         std::all_of(protocol_.watch.begin(), protocol_.watch.end(), is_taken) &&
         std::all_of(protocol_.actions.begin(), protocol_.actions.end(), is_taken) &&
         std::all_of(protocol_.steps.begin(), protocol_.steps.end(),
                     [&](const Step& step) { return std::all_of(step.rules.begin(), step.rules.end(), is_taken); });
}

bool Space::is_taken_as(const Space& other, const Conditions& conditions) const {
  return std::all_of(conditions.begin(), conditions.end(), [&](const Condition& condition) {
    const std::size_t place = *place_of(subject_of(condition));
    const std::vector<Stretch>&mine = variables_[place].stretches, &theirs = other.variables_[place].stretches;
    // Only glucose has two units.
    if (std::equal(mine.begin(), mine.end(), theirs.begin(), [](const Stretch& one, const Stretch& two) {
          return one.value == two.value && one.unknown == two.unknown;
        }))
      return true;
    const std::vector<ContextCell> cells = context_cells(protocol_, limits_of(condition));
    return std::all_of(cells.begin(), cells.end(), [&](const ContextCell& cell) {
      return taken_by(condition, place, cell.context()) == other.taken_by(condition, place, cell.context());
    });
  });
}

std::optional<std::size_t> Space::place_of(const Subject& subject) const {
  for (std::size_t i = 0; i < variables_.size(); ++i) {
    if (variables_[i].subject == subject) return i;
  }
  return std::nullopt;
}

Diagrams::Set Space::inside(Diagrams& diagrams, const ContextCell& cell) const {
  Diagrams::Set inside = Diagrams::kAll;
  const auto keep = [&](const Subject& subject, std::int64_t from, std::optional<std::int64_t> up_to) {
    const auto place = place_of(subject);
    if (!place) return;
    std::vector<bool> takes;
    for (const Stretch& each : variables_[*place].stretches) {
      // An unknown weight takes the band of the lightest child.
      takes.push_back(each.unknown ? from == 0 : each.value >= from && (!up_to || each.value < *up_to));
    }
    inside = diagrams.both(inside, diagrams.where(*place, takes));
  };
  const auto kilograms = [](const BodyWeight& weight) { return weight.in(kKilogram).micros(); };
  if (cell.splits_age)
    keep({Subject::Kind::fact, fact_id(ChildFact::age).index}, cell.age.months(),
         cell.age_end ? std::optional<std::int64_t>(cell.age_end->months()) : std::nullopt);
  if (cell.splits_weight)
    keep({Subject::Kind::fact, fact_id(ChildFact::weight).index}, kilograms(cell.weight),
         cell.weight_end ? std::optional<std::int64_t>(kilograms(*cell.weight_end)) : std::nullopt);
  if (cell.splits_clock)
    keep({Subject::Kind::clock, 0}, cell.clock.minutes(),
         cell.clock_end ? std::optional<std::int64_t>(cell.clock_end->minutes()) : std::nullopt);
  return inside;
}

std::vector<bool> Space::taken_by(const Condition& condition, std::size_t place, const Context& context) const {
  const Variable& variable = variables_[place];
  const Stretches held =
      held_by(protocol_, condition, Dimension{variable.subject, false, variable.stretches, -1}, unit_, context);
  std::vector<bool> takes;
  for (std::size_t i = 0; i < variable.stretches.size(); ++i) takes.push_back(held.test(i));
  return takes;
}

Diagrams::Set Space::where(Diagrams& diagrams, const Condition& condition) const {
  const auto place = place_of(subject_of(condition));
  if (!place) return Diagrams::kAll;  // a condition of no protocol: none is asked for
  Diagrams::Set holding = Diagrams::kNone;
  for (const ContextCell& cell : context_cells(protocol_, limits_of(condition))) {
    const std::vector<bool> takes = taken_by(condition, *place, cell.context());
    holding = diagrams.either(holding, diagrams.both(inside(diagrams, cell), diagrams.where(*place, takes)));
  }
  return holding;
}

Diagrams::Set Space::where(Diagrams& diagrams, const Conditions& conditions) const {
  Diagrams::Set holding = Diagrams::kAll;
  for (const Condition& condition : conditions) holding = diagrams.both(holding, where(diagrams, condition));
  return holding;
}

Diagrams::Set Space::known(Diagrams& diagrams, FactId fact) const {
  const auto place = place_of(fact);
  if (!place) return Diagrams::kAll;
  std::vector<bool> takes;
  for (const Stretch& each : variables_[*place].stretches) takes.push_back(!each.unknown);
  return diagrams.where(*place, takes);
}

Diagrams::Set Space::visiting(Diagrams& diagrams, std::size_t visit) const {
  std::vector<bool> takes(visits_.size() + 1, false);
  takes[visit] = true;
  return diagrams.where(visit_place(), takes);
}

std::vector<Space::Times> Space::times_of(Diagrams& diagrams, const std::vector<ThresholdId>& times) const {
  std::vector<Times> all;
  for (const ContextCell& cell : context_cells(protocol_, times)) {
    Times each{inside(diagrams, cell), {}};
    for (const ThresholdId id : times) {
      const auto* time = std::get_if<Duration>(&value_in(protocol_[id], cell.context()));
      each.values.push_back(time != nullptr ? *time : Duration{0});
    }
    all.push_back(std::move(each));
  }
  return all;
}

}  // namespace rushlight
