#include <algorithm>

#include "finding/attribute_words.hpp"
#include "verify/boxes_by_place.hpp"
#include "verify/crossings.hpp"
#include "verify/properties.hpp"

namespace rushlight {

namespace {

struct Alive {
  std::vector<bool> rules;  // that match somewhere
  bool gave_up = false;     // all count as alive then
};

// Only the table itself counts: a rule that repeats what a watch already takes is belt and braces, and a printed table
// that is complete without the watch is a good one. A rule found dead takes nothing that is not taken, so those behind
// it are not held against it.
Alive alive_in(const std::vector<Table>& tables, std::size_t rules) {
  Alive alive{std::vector<bool>(rules, false)};
  for (const Table& table : tables) {
    const BoxesByPlace by_place(table.whole, table.rules);
    Cover earlier(table.whole);
    earlier.make_room_for(rules);
    for (std::size_t rule = 0; rule < rules; ++rule) {
      if (!alive.rules[rule] && !by_place.finds_point_before_others(rule)) {
        const Search search = earlier.each_left_over(table.rules[rule], [](const Box&) { return false; });
        if (search == Search::ended) continue;
        if (search == Search::gave_up) return Alive{std::vector<bool>(rules, true), true};
      }
      alive.rules[rule] = true;
      earlier.add(table.rules[rule]);
    }
  }
  return alive;
}

// Where it matches, by table and box: in one unit or band the conditions of a rule may hold together and in another
// not.
using Matches = std::vector<std::pair<const Table*, const Box*>>;

Matches matches_of(const std::vector<Table>& tables, std::size_t rule) {
  Matches matches;
  for (const Table& table : tables) {
    if (!table.rules[rule].empty()) matches.emplace_back(&table, &table.rules[rule]);
  }
  return matches;
}

// The one earlier rule that takes everything the rule asks for, if one alone does.
std::optional<std::size_t> taker_of(const Matches& matches, std::size_t rule) {
  for (std::size_t earlier = 0; earlier < rule; ++earlier) {
    const bool takes_all = std::all_of(matches.begin(), matches.end(), [&](const auto& match) {
      return match.first->rules[earlier].contains(*match.second);
    });
    if (takes_all) return earlier;
  }
  return std::nullopt;
}

constexpr std::size_t kMostTakers = 4;  // of more than these nobody can say which one is wrong
// Where more rules than these reach into a silenced one, the few are not looked for: thousands of rules would take
// minutes.
constexpr std::size_t kMostMet = 64;

// Of the rules before a silenced one, so few as take all of it together; of two such sets the one with the earlier
// rules. Halving: what is needed of the later half beside the earlier half, then what is needed of the earlier half
// beside that.
class Needed {
 public:
  Needed(const Matches& matches, std::size_t rule) : matches_(matches) {
    for (std::size_t earlier = 0; earlier < rule && candidates_.size() <= kMostMet; ++earlier) {
      const bool meets = std::any_of(matches.begin(), matches.end(), [&](const auto& match) {
        return match.first->rules[earlier].meets(*match.second);
      });
      if (meets) candidates_.push_back(earlier);
    }
  }

  /// None when more are needed than can be named.
  std::vector<std::size_t> takers() {
    if (candidates_.size() > kMostMet) return {};
    needed_of(0, candidates_.size(), false);
    if (too_many_) return {};
    std::sort(beside_.begin(), beside_.end());
    return beside_;
  }

 private:
  bool take_all() const {
    return std::all_of(matches_.begin(), matches_.end(), [&](const auto& match) {
      std::vector<const Box*> boxes;
      for (const std::size_t each : beside_) boxes.push_back(&match.first->rules[each]);
      return all_taken(*match.second, boxes);
    });
  }

  // Leaves in `beside_` also what is needed of these candidates; `more` tells whether any came to it since it was
  // asked.
  void needed_of(std::size_t from, std::size_t up_to, bool more) {
    if (from == up_to || too_many_ || (more && take_all())) return;
    if (up_to - from == 1) {
      beside_.push_back(candidates_[from]);
      too_many_ = ++found_ > kMostTakers;
      return;
    }
    const std::size_t middle = from + (up_to - from) / 2, before = beside_.size();
    for (std::size_t i = from; i < middle; ++i) beside_.push_back(candidates_[i]);
    needed_of(middle, up_to, true);
    const auto first = beside_.begin() + static_cast<std::ptrdiff_t>(before);
    const bool later = beside_.size() - before > middle - from;
    beside_.erase(first, first + static_cast<std::ptrdiff_t>(middle - from));
    needed_of(from, middle, later);
  }

  const Matches& matches_;
  std::vector<std::size_t> candidates_, beside_;
  std::size_t found_ = 0;
  bool too_many_ = false;
};

// They are numbered from 1; none when they are more than can be named.
std::vector<int> takers_of(const Matches& matches, std::size_t rule) {
  std::vector<int> numbers;
  for (const std::size_t each : Needed(matches, rule).takers()) numbers.push_back(static_cast<int>(each) + 1);
  return numbers;
}

Because together_take_all(const std::string& noun, const std::vector<int>& numbers, const Where& first) {
  if (numbers.empty()) return Because{"the " + noun + " before it together take all of it", {}};
  return Because{noun + " " + in_a_row(numbers) + " together take all of it", first};
}

// Two thresholds silence a rule in every step that names them: told once, where the lower one has its value.
bool tell_crossing(Checking& checking, const std::optional<Crossing>& crossing) {
  if (!crossing) return false;
  checking.thresholds_cross = true;
  const bool told = std::any_of(checking.findings.begin(), checking.findings.end(), [&](const Finding& finding) {
    return finding.kind.is<ThresholdsCrossed>() && finding.where == crossing->lower && finding.because &&
           finding.because->where == crossing->upper;
  });
  if (!told)
    checking.error(crossing->lower, crossing->kind, Because{"`" + crossing->kind.upper + "`", crossing->upper});
  return true;
}

void tell(Checking& checking, const Step& step, const std::vector<Table>& tables, std::size_t rule) {
  const int number = static_cast<int>(rule) + 1;
  const Where& where = step.rules[rule].where;
  const Conditions& when = step.rules[rule].when;
  const Matches matches = matches_of(tables, rule);
  if (matches.empty()) {
    if (tell_crossing(checking, crossing_within(checking.protocol, when))) return;
    checking.error(where, RuleNeverMatches{number, step.name, 0}, Because{"its conditions never hold together", {}});
  } else if (const auto taker = taker_of(matches, rule)) {
    if (tell_crossing(checking, crossing_that_silences(checking.protocol, step.rules[*taker].when, when))) return;
    const int earlier = static_cast<int>(*taker) + 1;
    checking.error(where, RuleNeverMatches{number, step.name, earlier},
                   Because{"rule " + std::to_string(earlier) + " already takes all of it", step.rules[*taker].where});
  } else {
    const std::vector<int> takers = takers_of(matches, rule);
    const std::size_t first = takers.empty() ? rule : static_cast<std::size_t>(takers.front()) - 1;
    checking.error(where, RuleNeverMatches{number, step.name, 0, takers},
                   together_take_all("rules", takers, step.rules[first].where));
  }
}

void tell(Checking& checking, const Dose& dose, const std::vector<Table>& tables, std::size_t row) {
  const int number = static_cast<int>(row) + 1;
  const Where& where = dose.rows[row].where;
  const Conditions& when = dose.rows[row].when;
  const Matches matches = matches_of(tables, row);
  if (matches.empty()) {
    if (tell_crossing(checking, crossing_within(checking.protocol, when))) return;
    checking.error(where, DoseRowNeverMatches{number, dose.name, 0}, Because{"its conditions never hold together", {}});
  } else if (const auto taker = taker_of(matches, row)) {
    if (tell_crossing(checking, crossing_that_silences(checking.protocol, dose.rows[*taker].when, when))) return;
    const int earlier = static_cast<int>(*taker) + 1;
    checking.error(where, DoseRowNeverMatches{number, dose.name, earlier},
                   Because{"row " + std::to_string(earlier) + " already takes all of it", dose.rows[*taker].where});
  } else {
    const std::vector<int> takers = takers_of(matches, row);
    const std::size_t first = takers.empty() ? row : static_cast<std::size_t>(takers.front()) - 1;
    checking.error(where, DoseRowNeverMatches{number, dose.name, 0, takers},
                   together_take_all("rows", takers, dose.rows[first].where));
  }
}

}  // namespace

void no_dose_row_is_dead(Checking& checking) {
  for (const Dose& dose : checking.protocol.doses) {
    const Tables tables = tables_of(checking.protocol, dose);
    if (tables.things > 0) continue;  // told by coverage
    const Alive alive = alive_in(tables.tables, dose.rows.size());
    if (alive.gave_up) checking.error(dose.where, too_entangled());
    for (std::size_t row = 0; row < dose.rows.size(); ++row) {
      if (!alive.rules[row]) tell(checking, dose, tables.tables, row);
    }
  }
}

// A limit of a counter that no step and no action counts is never reached.
void no_rule_waits_for_a_counter_that_stands(Checking& checking) {
  const Protocol& protocol = checking.protocol;
  std::vector<bool> counted(protocol.counters.size(), false);
  for (const Step& step : protocol.steps) {
    if (step.counts) counted[step.counts->index] = true;
  }
  for (const Action& action : protocol.actions) {
    if (action.counts) counted[action.counts->index] = true;
  }
  for (const Step& step : protocol.steps) {
    for (std::size_t rule = 0; rule < step.rules.size(); ++rule) {
      for (const Condition& condition : step.rules[rule].when) {
        const auto* test = std::get_if<CountedAtLeast>(&condition.test);
        if (test == nullptr || counted[test->counter.index]) continue;
        const Counter& counter = protocol[test->counter];
        const auto* limit = std::get_if<int>(&protocol[test->limit].bands.front().value);
        if (limit == nullptr || *limit < 1) continue;
        checking.error(step.rules[rule].where, NeverCounted{static_cast<int>(rule) + 1, step.name, counter.name},
                       Because{"the counter `" + counter.name + "`", counter.where});
      }
    }
  }
}

void no_rule_is_dead(Checking& checking) {
  for (std::size_t i = 0; i < checking.protocol.steps.size(); ++i) {
    const Step& step = checking.protocol.steps[i];
    const Tables& tables = checking.tables[i];
    if (tables.things > 0) continue;  // told by coverage
    if (step.ends) {
      if (!step.rules.empty())
        checking.error(step.where, RuleNeverMatches{0, step.name, 0},
                       Because{"the first of them", step.rules.front().where});
      continue;
    }
    const Alive alive = alive_in(tables.tables, step.rules.size());
    if (alive.gave_up) checking.error(step.where, too_entangled());
    for (std::size_t rule = 0; rule < step.rules.size(); ++rule) {
      // During the wait an early rule is looked at before those above it.
      const bool leads_early = step.wait && step.rules[rule].early && !matches_of(tables.tables, rule).empty();
      if (!alive.rules[rule] && !leads_early) tell(checking, step, tables.tables, rule);
    }
  }
}

}  // namespace rushlight
