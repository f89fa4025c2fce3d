#include "protocol/resolve_parts.hpp"

namespace rushlight {

namespace {

std::optional<ThresholdId> amount_in(Resolver& resolver, const MaybeWord& word, Unit unit) {
  switch (unit) {
    case Unit::gram:
      return threshold_from(resolver, word, {ThresholdKind::carbohydrate});
    case Unit::millilitre:
      return in_unit(resolver, threshold_from(resolver, word, {ThresholdKind::portion}), word, unit);
    case Unit::insulin_unit:
      return threshold_from(resolver, word, {ThresholdKind::insulin});
    default:
      return in_unit(resolver, threshold_from(resolver, word, {ThresholdKind::medicine}), word, unit);
  }
}

// Rounding steps of grams may be carbohydrate or a portion: both are grams.
std::optional<ThresholdId> step_in(Resolver& resolver, const MaybeWord& word, Unit unit) {
  if (unit != Unit::gram) return amount_in(resolver, word, unit);
  const auto threshold = threshold_from(resolver, word, {ThresholdKind::carbohydrate, ThresholdKind::portion});
  return in_unit(resolver, threshold, word, unit);
}

// Every band of a rounding step must be above zero, or rounding would divide by it.
void refuse_zero_step(Resolver& resolver, std::optional<ThresholdId> step, const MaybeWord& word) {
  if (!step) return;
  for (const Band& band : resolver.protocol[*step].bands) {
    const auto* quantity = std::get_if<Quantity>(&band.value);
    if (quantity == nullptr || quantity->value > Decimal{} || is_told(resolver, band.where)) continue;
    resolver.error(word->where, BadNumber{word->text, "a step to round to is above zero"},
                   Because{"its value", band.where});
    return;
  }
}

void refuse_no_time(Resolver& resolver, ThresholdId time, const Word& word) {
  for (const Band& band : resolver.protocol[time].bands) {
    const auto* duration = std::get_if<Duration>(&band.value);
    if (duration == nullptr || *duration > Duration{} || is_told(resolver, band.where)) continue;
    resolver.error(word.where, BadNumber{word.text, "an amount takes some time"}, Because{"its value", band.where});
    return;
  }
}

// The ways to write an amount, in the order in which a file is told about them.
using Written = std::pair<const char*, const MaybeWord*>;

std::vector<Written> amounts_written(const DraftRow& draft) {
  const std::vector<Written> all = {{"fixed", &draft.fixed},     {"per-kg", &draft.per_kg},
                                    {"per-year", &draft.per_year}, {"percent", &draft.percent},
                                    {"correction", &draft.correction}, {"dose", &draft.dose},
                                    {"larger-of", &draft.larger_of}};
  std::vector<Written> written;
  for (const Written& each : all) {
    if (*each.second) written.push_back(each);
  }
  return written;
}

// What a word of an amount may be multiplied by is in the unit of the dose for each kilogram, year or day.
std::optional<ThresholdKind> kind_per_kilogram(Unit unit) {
  switch (unit) {
    case Unit::gram:
      return ThresholdKind::carbohydrate_per_weight;
    case Unit::millilitre:
      return ThresholdKind::fluid_per_weight;
    case Unit::insulin_unit:
      return ThresholdKind::insulin_per_weight;
    default:
      return std::nullopt;
  }
}

void refuse_unit(Resolver& resolver, const Word& word, const Dose& dose) {
  resolver.error(word.where, WrongUnit{word.text, std::string(ucum(dose.unit))},
                 Because{"the dose is in " + std::string(ucum(dose.unit)), dose.where});
}

/// A way to write an amount that belongs to doses of one unit alone.
void refuse_way(Resolver& resolver, const Written& written, const Dose& dose, Unit its_own) {
  resolver.error((*written.second)->where,
                 WrongUse{"`" + std::string(written.first) + "` belongs to a dose in " + std::string(ucum(its_own)),
                          "write this row in another way, or the dose in " + std::string(ucum(its_own))},
                 Because{"the dose is in " + std::string(ucum(dose.unit)), dose.where});
}

ThresholdId or_first(std::optional<ThresholdId> id) { return id.value_or(ThresholdId{0}); }

/// A dose of the same unit that stands further up, so that no dose can lead to itself.
DoseId earlier_dose(Resolver& resolver, const Word& word, const Dose& dose) {
  const auto place = place_in(resolver, resolver.doses, word);
  if (!place) return DoseId{0};
  if (*place >= resolver.protocol.doses.size()) {
    const bool itself = word.text == dose.name;
    resolver.error(word.where,
                   itself ? WrongUse{"dose `" + word.text + "` is made of itself", "name another dose, above this one"}
                          : WrongUse{"dose `" + word.text + "` stands further down", "move it above this dose"});
    return DoseId{0};
  }
  const Dose& named = resolver.protocol.doses[*place];
  if (named.unit != dose.unit) refuse_unit(resolver, word, dose);
  return DoseId{*place};
}

void add_per_kilogram(Resolver& resolver, const DraftRow& draft, const Dose& dose, DoseRow& row) {
  DoseRow::PerKilogram cell{ThresholdId{0}, std::nullopt, std::nullopt};
  if (const auto kind = kind_per_kilogram(dose.unit)) {
    cell.amount = or_first(threshold_from(resolver, draft.per_kg, {*kind}));
  } else {
    refuse_unit(resolver, *draft.per_kg, dose);
  }
  cell.over = threshold_from(resolver, draft.over, {ThresholdKind::weight});
  cell.plus = amount_in(resolver, draft.plus, dose.unit);
  row.cell = cell;
}

void add_amount(Resolver& resolver, const DraftRow& draft, const Dose& dose, DoseRow& row, const Written& written) {
  const std::string_view name = written.first;
  const Word& word = **written.second;
  if (name == "fixed") {
    DoseRow::Fixed cell{or_first(amount_in(resolver, draft.fixed, dose.unit)), std::nullopt};
    if (draft.text) cell.share = text_from(resolver, *draft.text, "row", draft.where);
    row.cell = std::move(cell);
  } else if (name == "per-kg") {
    add_per_kilogram(resolver, draft, dose, row);
  } else if (name == "per-year") {
    if (dose.unit != Unit::microgram) refuse_way(resolver, written, dose, Unit::microgram);
    row.cell = DoseRow::PerYear{or_first(threshold_from(resolver, draft.per_year, {ThresholdKind::medicine_per_age}))};
  } else if (name == "percent") {
    if (dose.unit != Unit::insulin_unit) refuse_way(resolver, written, dose, Unit::insulin_unit);
    row.cell = DoseRow::OfDailyDose{or_first(threshold_from(resolver, draft.percent, {ThresholdKind::percent}))};
  } else if (name == "correction") {
    if (dose.unit != Unit::insulin_unit) refuse_way(resolver, written, dose, Unit::insulin_unit);
    row.cell = DoseRow::Correction{or_first(threshold_from(resolver, draft.correction, {ThresholdKind::glucose})),
                                   threshold_from(resolver, draft.times, {ThresholdKind::factor})};
  } else if (name == "dose") {
    const auto during = threshold_from(resolver, draft.during, {ThresholdKind::time});
    if (during) refuse_no_time(resolver, *during, *draft.during);
    row.cell = DoseRow::OfDose{earlier_dose(resolver, word, dose), during,
                               threshold_from(resolver, draft.times, {ThresholdKind::factor})};
  } else {
    const std::vector<Word> names = split(word);
    if (names.size() != 2) {
      resolver.error(word.where, WrongUse{"`larger-of` compares two doses", "name two, with a blank between them"});
      row.cell = DoseRow::Fixed{ThresholdId{0}, std::nullopt};
      return;
    }
    row.cell = DoseRow::LargerOf{earlier_dose(resolver, names[0], dose), earlier_dose(resolver, names[1], dose)};
  }
}

// `over` and the like mean nothing without the amount they belong to.
void refuse_strays(Resolver& resolver, const DraftRow& draft, std::string_view amount) {
  const std::string row = "row with " + std::string(amount);
  if (amount != "per-kg") {
    refuse(resolver, draft.over, "over", row, {"per-kg"});
    refuse(resolver, draft.plus, "plus", row, {"per-kg"});
  }
  if (amount != "dose") refuse(resolver, draft.during, "during", row, {"dose"});
  if (amount != "dose" && amount != "correction") refuse(resolver, draft.times, "times", row, {"dose", "correction"});
}

void add_cell(Resolver& resolver, const DraftRow& draft, const Dose& dose, DoseRow& row) {
  const std::vector<Written> written = amounts_written(draft);
  if (is_yes(resolver, draft.withheld, "withheld")) {
    for (const Written& each : written)
      refuse(resolver, *each.second, each.first, "row that withholds", {"withheld", "source"});
    row.cell = DoseRow::Withheld{text_from(resolver, draft.text.value_or(DraftText{}), "row", draft.where)};
    return;
  }
  // A sum is another share for every child; only a fixed amount may say what it is of the thing in hand.
  if (draft.text && !draft.fixed) {
    const Word& language = draft.text->lines.front().language;
    resolver.error(language.where, UnknownElement{language.text, "row", {"if"}});
  }
  if (written.empty()) {
    resolver.error(draft.where, MissingAttribute{"fixed", "row"});
    return;
  }
  for (std::size_t more = 1; more < written.size(); ++more)
    refuse(resolver, *written[more].second, written[more].first, "row", {written.front().first});
  refuse_strays(resolver, draft, written.front().first);
  add_amount(resolver, draft, dose, row, written.front());
}

DoseRow row_from(Resolver& resolver, const DraftRow& draft, const Dose& dose) {
  DoseRow row{};
  row.where = draft.where;
  add_cell(resolver, draft, dose, row);
  row.least = amount_in(resolver, draft.least, dose.unit);
  row.most = amount_in(resolver, draft.most, dose.unit);
  row.most_percent = threshold_from(resolver, draft.most_percent, {ThresholdKind::percent});
  row.most_per_kg = threshold_from(resolver, draft.most_per_kg, {ThresholdKind::insulin_per_weight});
  if (dose.unit == Unit::insulin_unit) {
    refuse(resolver, draft.least, "least", "row of an insulin dose", {"most", "most-percent", "most-per-kg"});
  } else {
    refuse(resolver, draft.most_percent, "most-percent", "row", {"most"});
    refuse(resolver, draft.most_per_kg, "most-per-kg", "row", {"most"});
  }
  row.when = conditions_from(resolver, draft.when, Readable::everything);
  row.source = source_from(resolver, draft.source, "row", dose.name, draft.where);
  return row;
}

Unit unit_from(Resolver& resolver, const MaybeWord& word, const char* element, const Where& where,
               std::vector<std::string> allowed) {
  const Word* unit = needed(resolver, word, "unit", element, where);
  if (unit == nullptr || !place_in_words(resolver, *unit, "unit", allowed)) return Unit::gram;
  return unit_from_ucum(unit->text).value_or(Unit::gram);
}

// Rounding up would give more insulin than the table says; a dose without its limits would be given at any glucose.
void add_insulin_limits(Resolver& resolver, const DraftDose& draft, Dose& dose) {
  if (dose.unit != Unit::insulin_unit) {
    for (const auto& [word, name] : {std::pair{&draft.no_stacking, "no-stacking"}, std::pair{&draft.floor, "floor"},
                                     std::pair{&draft.fresh, "fresh"}})
      refuse(resolver, *word, name, "dose that is no insulin", {"id", "unit", "round", "to"});
    return;
  }
  if (draft.round && dose.round != RoundDirection::down) {
    resolver.error(draft.round->where, WrongWord{draft.round->text, "way to round insulin", {"down"}});
  }
  const auto limit = [&](const MaybeWord& word, ThresholdKind kind, const char* name) {
    return or_first(needed_threshold(resolver, word, {kind}, name, "dose", draft.where));
  };
  dose.insulin = InsulinLimits{limit(draft.no_stacking, ThresholdKind::time, "no-stacking"),
                               limit(draft.floor, ThresholdKind::glucose, "floor"),
                               limit(draft.fresh, ThresholdKind::time, "fresh")};
  for (const char* name : {"glucose", "last-rapid-insulin", "already-given"}) {
    if (resolver.facts.find(name)) continue;
    resolver.error(draft.where, WrongUse{"an insulin dose needs the question `" + std::string(name) + "`",
                                         "write it under `<facts>`, and ask it before the dose"});
  }
}

}  // namespace

void resolve_foods(Resolver& resolver) {
  for (const DraftFood& draft : resolver.draft.foods) {
    Food food{};
    food.where = draft.where;
    const Word* kind = needed(resolver, draft.kind, "kind", "food", draft.where);
    if (kind != nullptr) {
      food.kind = static_cast<FoodKind>(
          place_in_words(resolver, *kind, "kind of food", words::all_of(words::kFoodKinds)).value_or(0));
    }
    food.unit = unit_from(resolver, draft.unit, "food", draft.where, {"g", "mL"});
    const Unit content = food.unit == Unit::gram ? Unit::gram_per_100_gram : Unit::gram_per_100_ml;
    const auto carbohydrate =
        needed_threshold(resolver, draft.carbohydrate, {ThresholdKind::content}, "carbohydrate", "food", draft.where);
    food.carbohydrate = in_unit(resolver, carbohydrate, draft.carbohydrate, content).value_or(ThresholdId{0});
    if (carbohydrate) refuse_zero_step(resolver, carbohydrate, draft.carbohydrate);
    needed(resolver, draft.step, "step", "food", draft.where);
    const auto step = step_in(resolver, draft.step, food.unit);
    refuse_zero_step(resolver, step, draft.step);
    food.step = step.value_or(ThresholdId{0});
    food.when = conditions_from(resolver, draft.when, Readable::child_file);
    food.name = text_from(resolver, draft.name, "food", draft.where);
    food.source = source_from(resolver, draft.source, "food", kind == nullptr ? "" : kind->text, draft.where);
    resolver.protocol.foods.push_back(std::move(food));
  }
}

void resolve_doses(Resolver& resolver) {
  for (const DraftDose& draft : resolver.draft.doses) {
    Dose dose{};
    dose.name = draft.id ? draft.id->text : "";
    dose.where = draft.where;
    dose.unit = unit_from(resolver, draft.unit, "dose", draft.where, {"g", "mg", "ug", "mL", "[iU]"});
    const Word* round = needed(resolver, draft.round, "round", "dose", draft.where);
    const auto direction =
        round == nullptr ? std::nullopt
                         : place_in_words(resolver, *round, "way to round", words::all_of(words::kRoundDirections));
    dose.round = static_cast<RoundDirection>(direction.value_or(0));
    needed(resolver, draft.to, "to", "dose", draft.where);
    const auto to = step_in(resolver, draft.to, dose.unit);
    refuse_zero_step(resolver, to, draft.to);
    dose.to = to.value_or(ThresholdId{0});
    add_insulin_limits(resolver, draft, dose);
    dose.label = text_from(resolver, draft.label, "label", draft.where);
    for (const DraftRow& row : draft.rows) dose.rows.push_back(row_from(resolver, row, dose));
    if (draft.rows.empty()) resolver.error(draft.where, MissingElement{"row", "dose"});
    resolver.protocol.doses.push_back(std::move(dose));
  }
}

}  // namespace rushlight
