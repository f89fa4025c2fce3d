#include <algorithm>

#include "verify/contexts.hpp"
#include "verify/properties.hpp"

namespace rushlight {

namespace {

constexpr const char* kUnknownWeight = "weight: can't tell";

// "a child of unknown weight (age 6 years)"
std::string child_of(std::string example) {
  std::string child = "a child";
  if (const std::size_t at = example.find(kUnknownWeight); at != std::string::npos) {
    example.erase(at, std::string(kUnknownWeight).size());
    if (example.compare(at, 2, ", ") == 0) example.erase(at, 2);
    if (example.size() >= 2 && example.compare(example.size() - 2, 2, ", ") == 0) example.erase(example.size() - 2);
    child += " of unknown weight";
  } else if (example == "any answer") {
    return "any child";
  }
  return example.empty() ? child : child + " (" + example + ")";
}

std::optional<Because> because_of(const Dose& dose, bool unknown_weight) {
  for (const DoseRow& row : dose.rows) {
    if (unknown_weight && std::holds_alternative<DoseRow::PerKilogram>(row.cell))
      return Because{"a row for each kilogram needs a weight", row.where};
  }
  return std::nullopt;
}

struct Gap {
  const Table* table;
  Box box;
};

struct Gaps {
  std::vector<Gap> found;
  bool gave_up = false;
};

bool is_a_number(const Protocol& protocol, const Dimension& dimension) {
  return dimension.subject.kind == Subject::Kind::fact && protocol.facts[dimension.subject.index].options.empty();
}

// Two stretches of a number with another between them are two holes: the first run of each side, what is known of it
// before what nobody can tell.
Box first_run(const Protocol& protocol, const Table& table, Box gap) {
  for (std::size_t i = 0; i < gap.sides.size(); ++i) {
    if (!is_a_number(protocol, table.dimensions[i])) continue;
    Stretches known = gap.sides[i];
    known &= known_of(table.dimensions[i]);
    if (known.none()) continue;
    const Run run = known.runs().front();
    known.keep(run);
    gap.sides[i] = std::move(known);
  }
  return gap;
}

// The hole as far as it goes as long as nothing takes it: each number on to its neighbours, each choice to all its
// options. However the search cut it, it is one.
Box widened(const Protocol& protocol, const Table& table, Box gap, const std::vector<const Box*>& takers) {
  for (std::size_t i = 0; i < gap.sides.size(); ++i) {
    const Stretches known = known_of(table.dimensions[i]);
    if (!gap.sides[i].meets(known)) continue;
    const std::size_t count = table.dimensions[i].stretches.size();
    const bool number = is_a_number(protocol, table.dimensions[i]);
    const auto take = [&](std::size_t bit, std::size_t neighbour) {
      if (gap.sides[i].test(bit) || !known.test(bit)) return;
      if (number && !(gap.sides[i].test(neighbour) && known.test(neighbour))) return;
      gap.sides[i].set(bit);
      if (any_meets(takers, gap)) gap.sides[i].reset(bit);
    };
    for (std::size_t bit = 1; bit < count; ++bit) take(bit, bit - 1);
    for (std::size_t bit = count; bit-- > 1;) take(bit - 1, bit);
  }
  return gap;
}

// In the order of the values that they begin with.
bool comes_before(const Gap& one, const Gap& other) {
  for (std::size_t i = 0; i < one.box.sides.size(); ++i) {
    const std::size_t first = one.box.sides[i].first_place(), second = other.box.sides[i].first_place();
    if (first != second) return first < second;
  }
  return false;
}

// One for each hole of the part that counts, as far as they are told. The first table that has one speaks for all: the
// others are the same rows for another unit, or another band.
Gaps gaps_in(const Protocol& protocol, const Tables& tables,
             const std::function<std::optional<Box>(const Table&)>& part,
             const std::function<bool(const Table&, const Box&)>& counts) {
  constexpr std::size_t kMostTold = 4;
  Gaps gaps;
  for (const Table& table : tables.tables) {
    const std::optional<Box> box = part(table);
    if (!box) continue;
    std::vector<const Box*> takers = takers_of(table);
    std::vector<Box> told;
    told.reserve(kMostTold);  // the takers point into it
    Search search = Search::stopped;
    while (search == Search::stopped && told.size() < kMostTold) {
      search = each_left_over(*box, takers, [&](const Box& left) {
        if (!counts(table, left)) return true;
        told.push_back(widened(protocol, table, opened(table, first_run(protocol, table, left)), takers));
        return false;
      });
      if (search == Search::stopped) takers.push_back(&told.back());
    }
    if (search == Search::gave_up) gaps.gave_up = true;
    for (const Box& each : told) gaps.found.push_back(Gap{&table, each});
    if (!gaps.found.empty()) break;
  }
  std::sort(gaps.found.begin(), gaps.found.end(), comes_before);
  return gaps;
}

enum class Shares : std::uint8_t { none, some, all };

/// How much of the gap a row would take, were it to take all of it in this dimension.
Shares beside(const Box& row, const Box& gap, std::size_t dimension) {
  Shares shares = Shares::all;
  for (std::size_t i = 0; i < gap.sides.size(); ++i) {
    if (i == dimension) continue;
    if (!row.sides[i].meets(gap.sides[i])) return Shares::none;
    if (!row.sides[i].contains(gap.sides[i])) shares = Shares::some;
  }
  return shares;
}

// The rows that would take the hole if their `below` or `above` took its border too: those that do alone, or all that
// do together from above.
std::vector<DoseNotCovered::Wider> wider_rows(const Protocol& protocol, const Dose& dose, const Gap& gap) {
  std::vector<DoseNotCovered::Wider> alone, together;
  for (std::size_t row = 0; row < dose.rows.size(); ++row) {
    const Box& box = gap.table->rules[row];
    for (const Condition& condition : dose.rows[row].when) {
      const auto* test = std::get_if<Compares>(&condition.test);
      if (test == nullptr) continue;
      for (std::size_t i = 0; i < box.sides.size(); ++i) {
        if (!(gap.table->dimensions[i].subject == subject_of(condition))) continue;
        const Shares shares = beside(box, gap.box, i);
        const auto bit = only_shown_bit(protocol, *gap.table, i, gap.box.sides[i]);
        if (!bit || shares == Shares::none) continue;
        const bool ends_before = test->comparison == Comparison::below && *bit > 0 && box.sides[i].test(*bit - 1);
        const bool begins_behind = test->comparison == Comparison::above && box.sides[i].test(*bit + 1);
        const bool all = shares == Shares::all;
        if (ends_before && all) alone.push_back({static_cast<int>(row) + 1, "at-most", true});
        if (begins_behind) (all ? alone : together).push_back({static_cast<int>(row) + 1, "at-least", all});
      }
    }
  }
  return alone.empty() ? together : alone;
}

std::optional<std::size_t> weight_of(const Table& table) {
  for (std::size_t i = 0; i < table.dimensions.size(); ++i) {
    const Subject& subject = table.dimensions[i].subject;
    if (subject.kind == Subject::Kind::fact && subject.index == fact_id(ChildFact::weight).index) return i;
  }
  return std::nullopt;
}

std::optional<Box> weight_unknown(const Table& table) {
  const auto weight = weight_of(table);
  if (!weight) return std::nullopt;
  Box box = table.whole;
  box.sides[*weight] &= unknown_of(table.dimensions[*weight]);
  return box;
}

// A gap that a known weight would not close is not about the weight.
bool is_about_weight(const Table& table, const Box& gap) {
  const std::size_t weight = *weight_of(table);
  Box known = gap;
  known.sides[weight] = known_of(table.dimensions[weight]);
  return any_meets(takers_of(table), known);
}

}  // namespace

void every_child_has_a_row(Checking& checking) {
  const Protocol& protocol = checking.protocol;
  const auto any = [](const Table&, const Box&) { return true; };
  for (const Dose& dose : protocol.doses) {
    const Tables tables = tables_of(protocol, dose);
    if (tables.things > 0) {
      checking.error(dose.where, TooLarge{"things that one dose reads", static_cast<long long>(tables.things),
                                          Cover::kMostDimensions});
      continue;
    }
    const auto tell = [&](const Gaps& gaps, std::optional<Because> because) {
      for (const Gap& gap : gaps.found) {
        const std::string child = child_of(example_of(protocol, *gap.table, gap.box));
        checking.error(dose.where, DoseNotCovered{dose.name, child, wider_rows(protocol, dose, gap)}, because);
      }
    };
    const Gaps known = gaps_in(protocol, tables, all_known, any);
    const Gaps unknown = gaps_in(protocol, tables, weight_unknown, is_about_weight);
    tell(known, std::nullopt);
    tell(unknown, because_of(dose, true));
    bool gave_up = known.gave_up || unknown.gave_up;
    if (known.found.empty() && unknown.found.empty()) {
      const Gaps rest = gaps_in(
          protocol, tables, [](const Table& table) { return std::optional(table.whole); }, any);
      tell(rest, std::nullopt);
      gave_up = gave_up || rest.gave_up;
    }
    if (gave_up) checking.error(dose.where, too_entangled());
  }
}

void bounds_of_rows_are_in_order(Checking& checking) {
  const Protocol& protocol = checking.protocol;
  constexpr GlucoseUnit kAny = GlucoseUnit::mg_per_dl;  // a dose is no glucose
  for (const Dose& dose : protocol.doses) {
    for (std::size_t i = 0; i < dose.rows.size(); ++i) {
      const DoseRow& row = dose.rows[i];
      if (!row.least || !row.most) continue;
      for (const ContextCell& cell : context_cells(protocol, {*row.least, *row.most})) {
        const Limit& least = value_in(protocol[*row.least], cell.context());
        const Limit& most = value_in(protocol[*row.most], cell.context());
        if (number_of(least, kAny) <= number_of(most, kAny)) continue;
        checking.error(
            row.where,
            BoundsCrossed{dose.name, static_cast<int>(i) + 1, protocol[*row.least].name, text_from_limit(least, kAny),
                          protocol[*row.most].name, text_from_limit(most, kAny)},
            Because{"`" + protocol[*row.least].name + "`", protocol[*row.least].where});
        break;
      }
    }
  }
}

}  // namespace rushlight
