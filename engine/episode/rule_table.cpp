#include "episode/rule_table.hpp"

#include <algorithm>
#include <bit>
#include <limits>

namespace rushlight {
namespace {

constexpr std::int64_t kBelowAll = std::numeric_limits<std::int64_t>::min();
constexpr std::int64_t kAboveAll = std::numeric_limits<std::int64_t>::max();

std::int64_t key_of(const Limit& limit, GlucoseUnit unit) {
  if (const auto* glucose = std::get_if<GlucoseLimit>(&limit)) return glucose->in(unit).micros();
  if (const auto* ketones = std::get_if<BloodKetones>(&limit)) return ketones->in(kMillimolePerLitre).micros();
  if (const auto* weight = std::get_if<BodyWeight>(&limit)) return weight->in(kKilogram).micros();
  if (const auto* duration = std::get_if<Duration>(&limit)) return duration->count();
  if (const auto* age = std::get_if<Age>(&limit)) return age->months();
  if (const auto* count = std::get_if<int>(&limit)) return *count;
  return kAboveAll;
}

/// Where a number stands among the borders: an even place lies between two, an odd one on one.
std::size_t place_of(const std::vector<std::int64_t>& borders, std::int64_t number) {
  std::size_t place = 0;
  for (const std::int64_t border : borders) {
    place += static_cast<std::size_t>(border < number) + static_cast<std::size_t>(border <= number);
  }
  return place;
}

bool holds_at(Comparison comparison, std::size_t place, std::size_t border) {
  const std::size_t at = 2 * border + 1;
  switch (comparison) {
    case Comparison::below:
      return place < at;
    case Comparison::at_least:
      return place >= at;
    case Comparison::above:
      return place > at;
    case Comparison::at_most:
      return place <= at;
  }
  return false;
}

/// Calls `each(test, rule bit)` for the conditions of one type in all rules.
template <class Test, class Each>
void for_tests(const Step& step, Each each) {
  for (std::size_t rule = 0; rule < step.rules.size(); ++rule) {
    for (const Condition& condition : step.rules[rule].when) {
      if (const auto* test = std::get_if<Test>(&condition.test)) each(*test, std::uint64_t{1} << rule);
    }
  }
}

}  // namespace

RuleTable::Column RuleTable::column_of(const Protocol& protocol, const Step& step, const Context& context,
                                       FactId fact) {
  Column column{
      fact, ~std::uint64_t{0}, std::vector<std::uint64_t>(protocol[fact].options.size(), ~std::uint64_t{0}), {}};
  for (const GlucoseUnit unit : {GlucoseUnit::mg_per_dl, GlucoseUnit::mmol_per_l}) {
    Ladder& ladder = column.ladder[static_cast<std::size_t>(unit)];
    for_tests<Compares>(step, [&](const Compares& test, std::uint64_t) {
      if (test.fact == fact) ladder.borders.push_back(key_of(value_in(protocol[test.limit], context), unit));
    });
    std::sort(ladder.borders.begin(), ladder.borders.end());
    ladder.borders.erase(std::unique(ladder.borders.begin(), ladder.borders.end()), ladder.borders.end());
    ladder.possible.assign(2 * ladder.borders.size() + 1, ~std::uint64_t{0});
    for_tests<Compares>(step, [&](const Compares& test, std::uint64_t rule) {
      if (test.fact != fact) return;
      const std::int64_t key = key_of(value_in(protocol[test.limit], context), unit);
      const auto border = static_cast<std::size_t>(std::lower_bound(ladder.borders.begin(), ladder.borders.end(), key) -
                                                   ladder.borders.begin());
      for (std::size_t place = 0; place < ladder.possible.size(); ++place) {
        if (!holds_at(test.comparison, place, border)) ladder.possible[place] &= ~rule;
      }
    });
    for_tests<Is>(step, [&](const Is& test, std::uint64_t rule) {  // a number is none of the options
      if (test.fact == fact)
        for (std::uint64_t& possible : ladder.possible) possible &= ~rule;
    });
  }
  for_tests<Compares>(step, [&](const Compares& test, std::uint64_t rule) {
    if (test.fact != fact) return;
    column.unknown &= ~rule;
    for (std::uint64_t& possible : column.chosen) possible &= ~rule;
  });
  for_tests<Is>(step, [&](const Is& test, std::uint64_t rule) {
    if (test.fact != fact) return;
    if ((test.options & kUnknownBit) == 0) column.unknown &= ~rule;
    for (std::size_t option = 0; option < column.chosen.size(); ++option) {
      if ((test.options >> option & 1U) == 0) column.chosen[option] &= ~rule;
    }
  });
  const bool asked = std::any_of(step.asks.begin(), step.asks.end(), [&](const Ask& ask) { return ask.fact == fact; });
  for (std::size_t rule = 0; asked && rule < step.rules.size(); ++rule) {
    if (step.rules[rule].otherwise) column.unknown &= ~(std::uint64_t{1} << rule);
  }
  return column;
}

std::optional<RuleTable> RuleTable::of(const Protocol& protocol, const Step& step, const Context& context) {
  if (step.rules.size() > kMostRules) return std::nullopt;
  RuleTable table;
  std::vector<FactId> facts;
  const auto add = [&](FactId fact) {
    if (std::find(facts.begin(), facts.end(), fact) == facts.end()) facts.push_back(fact);
  };
  for (std::size_t rule = 0; rule < step.rules.size(); ++rule) {
    const std::uint64_t bit = std::uint64_t{1} << rule;
    table.rules_ |= bit;
    for (const Condition& condition : step.rules[rule].when) {
      if (const auto* compares = std::get_if<Compares>(&condition.test)) {
        add(compares->fact);
      } else if (const auto* is = std::get_if<Is>(&condition.test)) {
        add(is->fact);
      } else {
        table.others_.push_back(Other{condition, ~bit});
      }
    }
  }
  for (const Ask& ask : step.asks) add(ask.fact);
  for (const FactId fact : facts) table.columns_.push_back(column_of(protocol, step, context, fact));
  return table;
}

std::uint64_t RuleTable::possible_in(const Column& column, const Value& value, Duration since_learned) {
  const auto at = [&](std::int64_t number, GlucoseUnit unit = GlucoseUnit::mg_per_dl) {
    const Ladder& ladder = column.ladder[static_cast<std::size_t>(unit)];
    return ladder.possible[place_of(ladder.borders, number)];
  };
  if (const auto* chosen = std::get_if<Chosen>(&value)) return column.chosen[chosen->option];
  if (std::holds_alternative<CantTell>(value)) return column.unknown;
  if (const auto* glucose = std::get_if<Glucose>(&value)) {
    if (!glucose->mark()) return at(glucose->number()->micros(), glucose->unit());
    return at(*glucose->mark() == MeterMark::lo ? kBelowAll : kAboveAll, glucose->unit());
  }
  if (const auto* ketones = std::get_if<KetoneReading>(&value)) {
    return at(ketones->number() ? ketones->number()->in(kMillimolePerLitre).micros() : kAboveAll);
  }
  if (const auto* count = std::get_if<Count>(&value)) return at(count->number);
  if (const auto* ago = std::get_if<Ago>(&value)) return at((ago->time + since_learned).count());
  if (const auto* age = std::get_if<Age>(&value)) return at(age->months());
  if (const auto* weight = std::get_if<BodyWeight>(&value)) return at(weight->in(kKilogram).micros());
  return at(kAboveAll);  // "not in the last day" is longer ago than every limit
}

std::optional<std::uint16_t> RuleTable::first_match(const Scene& scene) const {
  std::uint64_t possible = rules_;
  for (const Column& column : columns_) {
    if (column.fact.index < kChildFacts) {
      possible &= possible_in(column, *value_of(scene, column.fact), Duration{0});
    } else if (const std::optional<Known>& known = scene.episode.facts[column.fact.index]) {
      possible &= possible_in(column, known->value, scene.now - known->learned);
    } else {
      possible &= column.unknown;
    }
  }
  for (const Other& other : others_) {
    if (!holds(scene, other.condition, Unanswered::is_cant_tell)) possible &= other.otherwise_possible;
  }
  if (possible == 0) return std::nullopt;
  return static_cast<std::uint16_t>(std::countr_zero(possible));
}

}  // namespace rushlight
