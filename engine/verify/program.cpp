#include "verify/program.hpp"

#include <algorithm>

#include "verify/step_parts.hpp"

namespace rushlight {

namespace {

bool has(const std::vector<WatchId>& watches, WatchId id) {
  return std::find(watches.begin(), watches.end(), id) != watches.end();
}

}  // namespace

Program::Program(const Space& space, Diagrams& diagrams, Assumed assumed)
    : space_(space),
      protocol_(space.protocol()),
      diagrams_(diagrams),
      assumed_(std::move(assumed)),
      stays_(space.where(diagrams, assumed_.stays)),
      moves_(protocol_.steps.size()),
      times_(protocol_.steps.size()),
      times_of_outcomes_(protocol_.steps.size()),
      deeds_(protocol_.steps.size()) {
  for (const Condition& condition : assumed_.stays) {
    const Subject subject = subject_of(condition);
    if (subject.kind == Subject::Kind::fact) told_before_.push_back(FactId{subject.index});
  }
  for (std::size_t v = 0; v <= space_.variables().size(); ++v) told_.push_back(is_told(v));
  all_told_ = diagrams_.group(told_);
  for (const Watch& watch : protocol_.watch) watch_holds_.push_back(space_.where(diagrams_, watch.when));
  find_what_is_remembered();
}

void Program::count(std::vector<Diagrams::MapId>& counts, CounterId counter) {
  const auto place = space_.place_of(Subject{Subject::Kind::counter, counter.index});
  if (!place || !follows(counter)) return;
  const std::size_t values = space_.variables()[*place].stretches.size();
  Diagrams::Values to(values);
  for (std::size_t i = 0; i < values; ++i) to[i] = static_cast<std::uint16_t>(std::min(i + 1, values - 1));
  counts.push_back(diagrams_.map(*place, std::move(to)));
}

void Program::reset(std::vector<Diagrams::MapId>& counts, CounterId counter) {
  const auto place = space_.place_of(Subject{Subject::Kind::counter, counter.index});
  if (!place || !follows(counter)) return;
  counts.push_back(diagrams_.map(*place, Diagrams::Values(space_.variables()[*place].stretches.size(), 0)));
}

Diagrams::MapId Program::visit_becomes(std::size_t visit) {
  return diagrams_.map(space_.visit_place(),
                       Diagrams::Values(space_.visits().size() + 1, static_cast<std::uint16_t>(visit)));
}

// Where one of the watch rules before this one is true and it is certain that the engine knows: all it reads was told
// when the night began, or with `asked_too` was just answered here.
Diagrams::Set Program::watches_before(StepId id, std::size_t before, bool asked_too) {
  const Step& step = protocol_[id];
  const Part* part = protocol_.part_of(id);
  const auto is_known = [&](const Condition& condition) {
    const Subject subject = subject_of(condition);
    if (subject.kind != Subject::Kind::fact) return true;
    const FactId fact{subject.index};
    const bool told = std::find(told_before_.begin(), told_before_.end(), fact) != told_before_.end();
    return protocol_[fact].from_child || told || (asked_too && ask_for(step, fact) != nullptr);
  };
  Diagrams::Set watched = Diagrams::kNone;
  for (std::size_t i = 0; i < before; ++i) {
    const bool elsewhere =
        part != nullptr && (i < part->first_watch || i >= std::size_t{part->first_watch} + part->watches);
    const Watch& watch = protocol_.watch[i];
    // An answer may be known and yet no news.
    if (elsewhere || watch.told || has(step.handles, WatchId{static_cast<std::uint16_t>(i)})) continue;
    if (std::all_of(watch.when.begin(), watch.when.end(), is_known))
      watched = diagrams_.either(watched, watch_holds_[i]);
  }
  return watched;
}

const Program::Times& Program::times_of(StepId id, Leading::By by) {
  std::optional<Times>& found = (by == Leading::By::outcome ? times_of_outcomes_ : times_)[id.index];
  if (found) return *found;
  const Step& step = protocol_[id];
  if (!step.wait) return found.emplace(Times{{Diagrams::kAll, Duration{0}}});
  std::vector<ThresholdId> read{step.wait->lasts, step.wait->overdue};
  if (step.wait->after && step.wait->start_within) read.push_back(*step.wait->start_within);
  Times times;
  for (const Space::Times& each : space_.times_of(diagrams_, read)) {
    Duration takes = each.values[0];
    if (assumed_.answers == Promptness::late) {
      takes += each.values[1] + (each.values.size() > 2 ? each.values[2] : Duration{0});
    } else if (by == Leading::By::outcome) {
      takes = Duration{0};
    }
    times.emplace_back(each.where, takes);
  }
  return found.emplace(std::move(times));
}

void Program::add(StepId step, std::vector<Leading>& moves, Leading move) {
  move.when = diagrams_.both(move.when, stays_);
  if (move.when == Diagrams::kNone) return;
  if (move.to && protocol_[*move.to].counts) count(move.counts, *protocol_[*move.to].counts);
  // Whatever was said before, it can be told anew until the rules are read.
  const bool anew = move.by == Leading::By::watch || move.by == Leading::By::early || move.by == Leading::By::overdue;
  Diagrams::GroupId free_here = all_told_;
  move.forgotten = all_told_;
  if (!anew) {
    const Facts kept = kept_over(step, move);
    Facts forgotten = told_;
    for (std::size_t v = 0; v < kept.size(); ++v) forgotten[v] = forgotten[v] && !kept[v];
    move.forgotten = diagrams_.group(forgotten);
    for (std::size_t v = 0; v < forgotten.size(); ++v) forgotten[v] = forgotten[v] && !remembered_[step.index][v];
    free_here = diagrams_.group(forgotten);
  }
  move.guard = diagrams_.freed(move.when, free_here);
  if (move.guard == Diagrams::kNone) return;
  const Diagrams::Set when = move.when, guard = move.guard;
  for (const auto& [where, takes] : times_of(step, move.by)) {
    move.when = diagrams_.both(when, where);
    move.guard = diagrams_.both(guard, diagrams_.freed(where, free_here));
    move.takes = takes;
    if (move.guard != Diagrams::kNone) moves.push_back(move);
  }
}

void Program::add_rule(StepId step, std::vector<Leading>& moves, Leading move, const Rule& rule) {
  for (const CounterId counter : rule.resets) reset(move.counts, counter);
  if (!rule.enters) {
    move.to = takes_over_elsewhere(rule) ? std::nullopt : std::optional<StepId>(rule.go);
    return add(step, moves, std::move(move));
  }
  // One visit at a time: what a visited protocol would go on to is the caller's to decide.
  const auto at_visit = [&](std::size_t visit, StepId to, std::size_t becomes) {
    Leading each = move;
    each.when = diagrams_.both(each.when, space_.visiting(diagrams_, visit));
    each.to = to;
    if (visit != becomes) each.counts.push_back(visit_becomes(becomes));
    add(step, moves, std::move(each));
  };
  std::size_t own = 0;
  for (std::size_t v = 0; v < space_.visits().size(); ++v) {
    const Space::VisitRule& visit = space_.visits()[v];
    const Rule& calling = protocol_[visit.step].rules[visit.rule];
    if (&calling == &rule) own = v + 1;
    at_visit(v + 1, calling.go, 0);
  }
  at_visit(0, *rule.enters, own);
}

void Program::add_rules(StepId id, std::vector<Leading>& moves) {
  const Step& step = protocol_[id];
  const Diagrams::Set known_danger = watches_before(id, protocol_.watch.size(), false);
  Diagrams::Set taken = watches_before(id, protocol_.watch.size(), true);
  for (std::size_t r = 0; r < step.rules.size(); ++r) {
    const Rule& rule = step.rules[r];
    Diagrams::Set holding = space_.where(diagrams_, rule.when);
    for (std::size_t a = 0; a < step.asks.size() && rule.otherwise; ++a)
      holding = diagrams_.both(holding, space_.known(diagrams_, step.asks[a].fact));
    Leading move{};
    move.index = static_cast<std::uint16_t>(r);
    move.when = diagrams_.without(holding, taken);
    taken = diagrams_.either(taken, holding);
    if (rule.early && step.wait && !rule.when.empty()) {
      Leading early = move;
      early.by = Leading::By::early;
      early.when = diagrams_.without(holding, known_danger);
      add_rule(id, moves, std::move(early), rule);
    }
    add_rule(id, moves, std::move(move), rule);
  }
}

void Program::add_outcomes(StepId id, std::vector<Leading>& moves) {
  for (const ActionId action : protocol_[id].actions) {
    for (int outcome = 0; outcome < kOutcomes; ++outcome) {
      const auto& rule = protocol_[action].on[static_cast<std::size_t>(outcome)];
      if (!rule || !rule->go) continue;
      Leading move{Leading::By::outcome, action.index, static_cast<Outcome>(outcome), *rule->go};
      move.when = diagrams_.without(space_.where(diagrams_, protocol_[action].when),
                                    watches_before(id, protocol_.watch.size(), false));
      add(id, moves, std::move(move));
    }
  }
}

void Program::add_watches(StepId id, std::vector<Leading>& moves) {
  const Step& step = protocol_[id];
  const Part* here = protocol_.part_of(id);
  const auto is_of = [&](const Part* part, std::size_t watch) {
    return part == nullptr || (watch >= part->first_watch && watch < std::size_t{part->first_watch} + part->watches);
  };
  for (std::size_t i = 0; i < protocol_.watch.size(); ++i) {
    const WatchId watch{static_cast<std::uint16_t>(i)};
    if (has(step.handles, watch)) continue;
    Leading move{Leading::By::watch, watch.index, Outcome::given, protocol_[watch].go};
    move.when = diagrams_.both(watch_holds_[i], stays_);
    move.when = diagrams_.without(move.when, watches_before(id, i, false));
    if (is_of(here, i)) {
      add(id, moves, std::move(move));
      continue;
    }
    for (std::size_t v = 0; v < space_.visits().size(); ++v) {
      const StepId from = space_.visits()[v].step;
      if (!is_of(protocol_.part_of(from), i) || has(protocol_[from].handles, watch)) continue;
      Leading calling = move;
      calling.when = diagrams_.both(calling.when, space_.visiting(diagrams_, v + 1));
      calling.counts.push_back(visit_becomes(0));
      add(id, moves, std::move(calling));
    }
  }
}

void Program::add_ways_back(StepId id, std::vector<Leading>& moves) {
  for (std::size_t v = 0; v < space_.visits().size(); ++v) {
    const Space::VisitRule& visit = space_.visits()[v];
    Leading move{Leading::By::back, visit.rule, Outcome::given, protocol_[visit.step].rules[visit.rule].go};
    move.when = space_.visiting(diagrams_, v + 1);
    move.counts.push_back(visit_becomes(0));
    add(id, moves, std::move(move));
  }
}

std::vector<Leading> Program::made(StepId id) {
  const Step& step = protocol_[id];
  std::vector<Leading> moves;
  if (!step.ends) {
    add_rules(id, moves);
    add_outcomes(id, moves);
    if (step.wait && assumed_.answers == Promptness::late) {
      Leading overdue{Leading::By::overdue, 0, Outcome::given, step.wait->go};
      overdue.when = diagrams_.without(Diagrams::kAll, watches_before(id, protocol_.watch.size(), false));
      add(id, moves, std::move(overdue));
    }
    add_watches(id, moves);
  }
  if (!ends_a_visit(step)) return moves;
  for (Leading& move : moves) {
    move.when = diagrams_.both(move.when, space_.visiting(diagrams_, 0));
    move.guard = diagrams_.both(move.guard, space_.visiting(diagrams_, 0));
  }
  add_ways_back(id, moves);
  return moves;
}

const std::vector<Leading>& Program::moves_of(StepId step) {
  std::optional<std::vector<Leading>>& moves = moves_[step.index];
  if (!moves) moves = made(step);
  return *moves;
}

const std::vector<Program::Deed>& Program::deeds_of(StepId step) {
  std::optional<std::vector<Deed>>& deeds = deeds_[step.index];
  if (deeds) return *deeds;
  deeds.emplace();
  for (const ActionId id : protocol_[step].actions) {
    const Action& action = protocol_[id];
    std::vector<Diagrams::MapId> maps;
    if (action.counts) count(maps, *action.counts);
    if (const auto done = space_.place_of(Subject{Subject::Kind::done, id.index}))
      maps.push_back(diagrams_.map(*done, Diagrams::Values{1, 1}));
    const Diagrams::Set applies = diagrams_.freed(space_.where(diagrams_, action.when), diagrams_.group(told_));
    for (const Diagrams::MapId map : maps) deeds->push_back(Deed{applies, map});
  }
  return *deeds;
}

Diagrams::Set Program::at_start_of(StepId start) {
  Diagrams::Set set = diagrams_.both(stays_, space_.visiting(diagrams_, 0));
  for (std::size_t v = 0; v < space_.variables().size(); ++v) {
    const Space::Variable& variable = space_.variables()[v];
    if (variable.subject.kind != Subject::Kind::counter && variable.subject.kind != Subject::Kind::done) continue;
    std::vector<bool> none(variable.stretches.size(), false);
    none[0] = true;
    set = diagrams_.both(set, diagrams_.where(v, none));
  }
  Facts forgotten = told_;
  for (std::size_t v = 0; v < forgotten.size(); ++v) forgotten[v] = forgotten[v] && !remembered_[start.index][v];
  set = diagrams_.freed(set, diagrams_.group(forgotten));
  std::vector<Diagrams::MapId> counts;
  if (protocol_[start].counts) count(counts, *protocol_[start].counts);
  for (const Diagrams::MapId map : counts) set = diagrams_.moved(set, map);
  return set;
}

Diagrams::Set Program::with_deeds(Diagrams::Set entered, StepId step) {
  Diagrams::Set set = entered;
  for (Diagrams::Set before = Diagrams::kNone; set != before;) {
    before = set;
    for (const Deed& deed : deeds_of(step))
      set = diagrams_.either(set, diagrams_.moved(diagrams_.both(set, deed.applies), deed.counts));
  }
  return set;
}

Diagrams::Set Program::after(Diagrams::Set entered, StepId step, const Leading& move) {
  Diagrams::Set set = with_deeds(entered, step);
  set = diagrams_.freed(diagrams_.both(set, move.guard), move.forgotten);
  for (const Diagrams::MapId map : move.counts) set = diagrams_.moved(set, map);
  return set;
}

Diagrams::Set Program::before(Diagrams::Set wanted, StepId step, const Leading& move) {
  Diagrams::Set set = wanted;
  for (std::size_t i = move.counts.size(); i-- > 0;) set = diagrams_.moved_back(set, move.counts[i]);
  Facts told_here = told_;
  for (std::size_t v = 0; v < told_here.size(); ++v) told_here[v] = told_here[v] && !remembered_[step.index][v];
  set = diagrams_.freed(diagrams_.both(set, move.guard), diagrams_.group(told_here));
  for (Diagrams::Set after = Diagrams::kNone; set != after;) {
    after = set;
    for (const Deed& deed : deeds_of(step))
      set = diagrams_.either(set, diagrams_.both(deed.applies, diagrams_.moved_back(set, deed.counts)));
  }
  return set;
}

}  // namespace rushlight
