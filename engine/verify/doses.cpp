#include "verify/contexts.hpp"
#include "verify/properties.hpp"

namespace rushlight {

namespace {

constexpr const char* kUnknownWeight = "weight: can't tell";

// "a child of unknown weight (age 6 a)"
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
  std::optional<std::string> example;
  bool gave_up = false;
};

// The first gap of the part that `counts`.
Gap gap_in(const Protocol& protocol, const Tables& tables, const std::function<std::optional<Box>(const Table&)>& part,
           const std::function<bool(const Table&, const Box&)>& counts) {
  Gap found;
  for (const Table& table : tables.tables) {
    const std::optional<Box> box = part(table);
    if (!box) continue;
    const Search search = each_left_over(*box, takers_of(table), [&](const Box& gap) {
      if (!counts(table, gap)) return true;
      found.example = child_of(example_of(protocol, table, opened(table, gap)));
      return false;
    });
    if (search == Search::gave_up) found.gave_up = true;
    if (found.example) break;
  }
  return found;
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
    const Gap known = gap_in(protocol, tables, all_known, any);
    const Gap unknown = gap_in(protocol, tables, weight_unknown, is_about_weight);
    if (known.example) checking.error(dose.where, DoseNotCovered{dose.name, *known.example});
    if (unknown.example)
      checking.error(dose.where, DoseNotCovered{dose.name, *unknown.example}, because_of(dose, true));
    if (known.example || unknown.example) continue;
    const Gap rest = gap_in(
        protocol, tables, [](const Table& table) { return std::optional(table.whole); }, any);
    if (rest.example) checking.error(dose.where, DoseNotCovered{dose.name, *rest.example});
    if (rest.gave_up) checking.error(dose.where, too_entangled());
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
