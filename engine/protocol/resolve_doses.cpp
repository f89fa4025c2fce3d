#include "protocol/resolve_parts.hpp"

namespace rushlight {

namespace {

std::optional<ThresholdId> amount_in(Resolver& resolver, const MaybeWord& word, Unit unit) {
  switch (unit) {
    case Unit::gram:
      return threshold_from(resolver, word, {ThresholdKind::carbohydrate});
    case Unit::millilitre:
      return in_unit(resolver, threshold_from(resolver, word, {ThresholdKind::portion}), word, unit);
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
    if (quantity == nullptr || quantity->value > Decimal{}) continue;
    resolver.error(word->where, BadNumber{word->text, "a step to round to is above zero"},
                   Because{"its value", band.where});
    return;
  }
}

void add_cell(Resolver& resolver, const DraftRow& draft, const Dose& dose, DoseRow& row) {
  const bool withheld = is_yes(resolver, draft.withheld, "withheld");
  if (withheld) {
    refuse(resolver, draft.fixed, "fixed", "row that withholds", {"withheld", "source"});
    refuse(resolver, draft.per_kg, "per-kg", "row that withholds", {"withheld", "source"});
    row.cell = DoseRow::Withheld{text_from(resolver, draft.text.value_or(DraftText{}), "row", draft.where)};
    return;
  }
  if (draft.fixed) {
    refuse(resolver, draft.per_kg, "per-kg", "row", {"fixed"});
    DoseRow::Fixed fixed{amount_in(resolver, draft.fixed, dose.unit).value_or(ThresholdId{0}), std::nullopt};
    if (draft.text) fixed.share = text_from(resolver, *draft.text, "row", draft.where);
    row.cell = std::move(fixed);
    return;
  }
  // A sum for each kilogram is another share for every child.
  if (draft.text) {
    const Word& language = draft.text->lines.front().language;
    resolver.error(language.where, UnknownElement{language.text, "row", {"if"}});
  }
  if (draft.per_kg) {
    const auto amount = threshold_from(resolver, draft.per_kg, {ThresholdKind::carbohydrate_per_weight});
    if (amount && dose.unit != Unit::gram) {
      resolver.error(draft.per_kg->where, WrongUnit{draft.per_kg->text, std::string(ucum(dose.unit))},
                     Because{"the dose is in " + std::string(ucum(dose.unit)), dose.where});
    }
    row.cell = DoseRow::PerKilogram{amount.value_or(ThresholdId{0})};
  } else {
    resolver.error(draft.where, MissingAttribute{"fixed", "row"});
  }
}

DoseRow row_from(Resolver& resolver, const DraftRow& draft, const Dose& dose) {
  DoseRow row{};
  row.where = draft.where;
  add_cell(resolver, draft, dose, row);
  row.least = amount_in(resolver, draft.least, dose.unit);
  row.most = amount_in(resolver, draft.most, dose.unit);
  row.when = conditions_from(resolver, draft.when, Readable::what_is_given);
  row.source = source_from(resolver, draft.source, "row", dose.name, draft.where);
  return row;
}

Unit unit_from(Resolver& resolver, const MaybeWord& word, const char* element, const Where& where,
               std::vector<std::string> allowed) {
  const Word* unit = needed(resolver, word, "unit", element, where);
  if (unit == nullptr || !place_in_words(resolver, *unit, "unit", allowed)) return Unit::gram;
  return unit_from_ucum(unit->text).value_or(Unit::gram);
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
    dose.unit = unit_from(resolver, draft.unit, "dose", draft.where, {"g", "mg", "ug", "mL"});
    const Word* round = needed(resolver, draft.round, "round", "dose", draft.where);
    const auto direction =
        round == nullptr ? std::nullopt
                         : place_in_words(resolver, *round, "way to round", words::all_of(words::kRoundDirections));
    dose.round = static_cast<RoundDirection>(direction.value_or(0));
    needed(resolver, draft.to, "to", "dose", draft.where);
    const auto to = step_in(resolver, draft.to, dose.unit);
    refuse_zero_step(resolver, to, draft.to);
    dose.to = to.value_or(ThresholdId{0});
    dose.label = text_from(resolver, draft.label, "label", draft.where);
    for (const DraftRow& row : draft.rows) dose.rows.push_back(row_from(resolver, row, dose));
    if (draft.rows.empty()) resolver.error(draft.where, MissingElement{"row", "dose"});
    resolver.protocol.doses.push_back(std::move(dose));
  }
}

}  // namespace rushlight
