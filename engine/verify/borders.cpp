#include <algorithm>
#include <set>

#include "protocol/words.hpp"
#include "verify/properties.hpp"

namespace rushlight {
namespace {

bool takes_its_border(Comparison comparison) {
  return comparison == Comparison::at_least || comparison == Comparison::at_most;
}

std::string without_the_border(Comparison comparison) {
  const Comparison without = comparison == Comparison::at_most ? Comparison::below : Comparison::above;
  return std::string(words::kComparisons[static_cast<std::size_t>(without)]);
}

/// Where a rule ends or begins with a border that it takes itself.
struct End {
  std::size_t dimension, bit;  // the border's own stretch
  std::size_t rule;
  const Condition* condition;
  Comparison comparison;

  friend bool operator<(const End& a, const End& b) { return a.place() < b.place(); }
  std::pair<std::size_t, std::size_t> place() const { return {dimension, bit}; }
};

// The last stretch of a side, or the first; none when it is one alone: a rule for exactly that value is meant so.
std::optional<std::size_t> end_of(const Stretches& side, bool last) {
  if (side.none()) return std::nullopt;
  const std::size_t first_place = side.first_place(), last_place = side.runs().back().up_to - 1U;
  if (first_place == last_place) return std::nullopt;
  return last ? last_place : first_place;
}

std::vector<End> ends_of(const Protocol& protocol, const Table& table, const std::vector<const Conditions*>& rules) {
  std::vector<End> ends;
  for (std::size_t rule = 0; rule < rules.size(); ++rule) {
    for (const Condition& condition : *rules[rule]) {
      const auto* test = std::get_if<Compares>(&condition.test);
      if (test == nullptr || !takes_its_border(test->comparison)) continue;
      const std::int64_t border = number_of(value_in(protocol[test->limit], table.cell.context()), table.unit);
      for (std::size_t i = 0; i < table.dimensions.size(); ++i) {
        if (!(table.dimensions[i].subject == subject_of(condition))) continue;
        const auto bit = end_of(table.rules[rule].sides[i], test->comparison == Comparison::at_most);
        // Another condition of the rule, or the end of a band, may come first.
        if (bit && table.dimensions[i].stretches[*bit].value == border)
          ends.push_back(End{i, *bit, rule, &condition, test->comparison});
      }
    }
  }
  std::stable_sort(ends.begin(), ends.end());
  return ends;
}

struct Shared {
  std::optional<Box> box;
  bool gave_up;
};

// What the later of two rules would take were the earlier not there; none when still earlier ones take all of it.
Shared taken_twice(const Table& table, std::size_t one, std::size_t two) {
  Box both = table.rules[one];
  both &= table.rules[two];
  std::vector<const Box*> earlier;
  for (const Box& box : table.watched) earlier.push_back(&box);
  for (std::size_t i = 0; i < one; ++i) earlier.push_back(&table.rules[i]);
  std::optional<Box> left;
  const Search search = each_left_over(both, earlier, [&](const Box& part) {
    left = part;
    return false;
  });
  return Shared{std::move(left), search == Search::gave_up};
}

/// The rules of a step or the rows of a dose.
struct Lines {
  std::string what, owner;
  Where where;
  std::vector<const Conditions*> when;
  std::function<bool(std::size_t, std::size_t)> agree;
};

void tell(Checking& checking, const Table& table, const Lines& lines, const End& earlier, const End& later,
          const Box& both) {
  const std::string number = std::to_string(earlier.rule + 1);
  checking.warning(later.condition->where,
                   BorderTakenTwice{lines.what, lines.owner, example_of(checking.protocol, table, both),
                                    value_text(checking.protocol, table, earlier.dimension, earlier.bit),
                                    static_cast<int>(earlier.rule) + 1, without_the_border(earlier.comparison),
                                    static_cast<int>(later.rule) + 1, without_the_border(later.comparison)},
                   Because{lines.what + " " + number + " takes it first", earlier.condition->where});
}

// Only ends at one border can meet there, so the pairs are few however many rules there are.
void look_at(Checking& checking, const Tables& tables, const Lines& lines) {
  std::set<std::pair<std::size_t, std::size_t>> told;
  for (const Table& table : tables.tables) {
    const std::vector<End> ends = ends_of(checking.protocol, table, lines.when);
    for (auto one = ends.begin(); one != ends.end(); ++one) {
      for (auto two = one + 1; two != ends.end() && two->place() == one->place(); ++two) {
        const End& earlier = one->rule < two->rule ? *one : *two;
        const End& later = one->rule < two->rule ? *two : *one;
        if (earlier.comparison == later.comparison || lines.agree(earlier.rule, later.rule)) continue;
        if (told.count({earlier.rule, later.rule}) > 0) continue;
        const Shared both = taken_twice(table, earlier.rule, later.rule);
        if (both.gave_up) return checking.error(lines.where, too_entangled());
        if (!both.box) continue;
        told.emplace(earlier.rule, later.rule);
        tell(checking, table, lines, earlier, later, *both.box);
      }
    }
  }
}

/// Two rows that give the same, whichever of them counts.
struct GiveTheSame {
  bool operator()(const DoseRow::Withheld&, const DoseRow::Withheld&) const { return true; }
  bool operator()(const DoseRow::Fixed& one, const DoseRow::Fixed& two) const { return one.amount == two.amount; }
  bool operator()(const DoseRow::PerYear& one, const DoseRow::PerYear& two) const { return one.amount == two.amount; }
  bool operator()(const DoseRow::OfDailyDose& one, const DoseRow::OfDailyDose& two) const {
    return one.percent == two.percent;
  }
  template <class One, class Two>
  bool operator()(const One&, const Two&) const {
    return false;
  }
};

bool give_the_same(const DoseRow& one, const DoseRow& two) {
  return one.least == two.least && one.most == two.most && one.most_percent == two.most_percent &&
         one.most_per_kg == two.most_per_kg &&
         std::visit(GiveTheSame{}, one.cell, two.cell);
}

bool lead_to_the_same(const Rule& one, const Rule& two) {
  return one.go == two.go && one.resets == two.resets && one.sets == two.sets && one.visits == two.visits &&
         one.hands_over_to == two.hands_over_to;
}

}  // namespace

void no_border_is_taken_twice(Checking& checking) {
  const Protocol& protocol = checking.protocol;
  for (std::size_t i = 0; i < protocol.steps.size(); ++i) {
    const std::vector<Rule>& rules = protocol.steps[i].rules;
    Lines lines{"rule", protocol.steps[i].name, protocol.steps[i].where, {}, [&](std::size_t one, std::size_t two) {
                  return lead_to_the_same(rules[one], rules[two]);
                }};
    for (const Rule& rule : rules) lines.when.push_back(&rule.when);
    look_at(checking, checking.tables[i], lines);
  }
  for (const Dose& dose : protocol.doses) {
    Lines lines{"row", dose.name, dose.where, {}, [&](std::size_t one, std::size_t two) {
                  return give_the_same(dose.rows[one], dose.rows[two]);
                }};
    for (const DoseRow& row : dose.rows) lines.when.push_back(&row.when);
    look_at(checking, tables_of(protocol, dose), lines);
  }
}

}  // namespace rushlight
