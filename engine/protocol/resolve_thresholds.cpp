#include <algorithm>

#include "protocol/resolve_parts.hpp"

namespace rushlight {

namespace {

// A value that could not be read is a zero of its kind, so that what follows has something to look at.
Limit stand_in(ThresholdKind kind) {
  switch (kind) {
    case ThresholdKind::glucose:
      return GlucoseLimit{};
    case ThresholdKind::ketones:
      return BloodKetones{Decimal{}, kMillimolePerLitre};
    case ThresholdKind::time:
      return Duration{0};
    case ThresholdKind::count:
      return 0;
    case ThresholdKind::weight:
      return BodyWeight{Decimal{}, kKilogram};
    case ThresholdKind::age:
      return Age::of_months(0);
    case ThresholdKind::clock:
      return ClockTime::of_minutes(0);
    case ThresholdKind::medicine:
      return Quantity{Decimal{}, Unit::milligram};
    case ThresholdKind::content:
      return Quantity{Decimal{}, Unit::gram_per_100_gram};
    case ThresholdKind::carbohydrate_per_weight:
      return Quantity{Decimal{}, Unit::gram_per_kilogram};
    case ThresholdKind::carbohydrate:
    case ThresholdKind::portion:
      return Quantity{Decimal{}, Unit::gram};
    case ThresholdKind::percent:
      return Quantity{Decimal{}, Unit::percent};
    case ThresholdKind::insulin:
      return Quantity{Decimal{}, Unit::insulin_unit};
    case ThresholdKind::insulin_per_weight:
      return Quantity{Decimal{}, Unit::unit_per_kilogram};
    case ThresholdKind::fluid_per_weight:
      return Quantity{Decimal{}, Unit::ml_per_kilogram};
    case ThresholdKind::medicine_per_age:
      return Quantity{Decimal{}, Unit::microgram_per_year};
    case ThresholdKind::factor:
      return Quantity{Decimal{}, Unit::one};
  }
  return 0;
}

struct Reading {
  std::optional<Limit> value;
  Where where;
};

// mg/dL whole and mmol/L to one place is how a pair is printed; more places would hide a pair that disagrees.
void check_pair(Resolver& resolver, const DraftThreshold& draft, const GlucoseLimit& limit, const Where& where) {
  if (agree(limit)) return;
  if (draft.pair_exception) return;  // the source named prints them so; that it exists is checked once a threshold
  const std::string name = draft.id ? draft.id->text : "";
  resolver.error(where, ValuesDisagree{name, text_from_decimal(limit.mg_per_dl), text_from_decimal(limit.mmol_per_l),
                                       text_from_decimal(other_value(limit.mg_per_dl, GlucoseUnit::mg_per_dl)),
                                       text_from_decimal(other_value(limit.mmol_per_l, GlucoseUnit::mmol_per_l))});
}

Reading glucose_value(Resolver& resolver, const DraftThreshold& draft, const MaybeWord& mg_dl, const MaybeWord& mmol_l,
                      const char* element, const Where& where) {
  const Word* mg = needed(resolver, mg_dl, "mg-dl", element, where);
  const Word* mmol = needed(resolver, mmol_l, "mmol-l", element, where);
  const auto mg_value = mg == nullptr ? std::nullopt : number_from_word(resolver, *mg, Unit::mg_per_dl);
  const auto mmol_value = mmol == nullptr ? std::nullopt : number_from_word(resolver, *mmol, Unit::mmol_per_l);
  if (!mg_value || !mmol_value) return Reading{std::nullopt, where};
  const GlucoseLimit limit{*mg_value, *mmol_value};
  check_pair(resolver, draft, limit, mmol->where);
  return Reading{Limit{limit}, mg->where};
}

Reading value_from(Resolver& resolver, const DraftThreshold& draft, ThresholdKind kind, const MaybeWord& value,
                   const MaybeWord& mg_dl, const MaybeWord& mmol_l, const char* element, const Where& where) {
  if (kind == ThresholdKind::glucose) {
    refuse(resolver, value, "value", element, {"mg-dl", "mmol-l"});
    return glucose_value(resolver, draft, mg_dl, mmol_l, element, where);
  }
  refuse(resolver, mg_dl, "mg-dl", element, {"value"});
  refuse(resolver, mmol_l, "mmol-l", element, {"value"});
  const Word* word = needed(resolver, value, "value", element, where);
  if (word == nullptr) return Reading{std::nullopt, where};
  return Reading{limit_from_word(resolver, kind, *word), word->where};
}

template <class Value>
std::optional<Value> edge(Resolver& resolver, const MaybeWord& word,
                          std::optional<Value> (*read)(Resolver&, const Word&), bool& sound) {
  if (!word) return std::nullopt;
  const std::optional<Value> value = read(resolver, *word);
  if (!value) sound = false;
  return value;
}

// True when all edges could be read: only then do gaps and overlaps mean something.
bool add_band(Resolver& resolver, const DraftThreshold& draft, const DraftBand& band, Threshold& threshold,
              bool& values_read) {
  bool sound = true;
  Band made{};
  made.age_from = edge<Age>(resolver, band.age_from, age_from_word, sound);
  made.age_up_to = edge<Age>(resolver, band.age_up_to, age_from_word, sound);
  made.weight_from = edge<BodyWeight>(resolver, band.weight_from, weight_from_word, sound);
  made.weight_up_to = edge<BodyWeight>(resolver, band.weight_up_to, weight_from_word, sound);
  made.clock_from = edge<ClockTime>(resolver, band.clock_from, clock_from_word, sound);
  made.clock_up_to = edge<ClockTime>(resolver, band.clock_up_to, clock_from_word, sound);
  const Reading reading =
      value_from(resolver, draft, threshold.kind, band.value, band.mg_dl, band.mmol_l, "band", band.where);
  if (!reading.value) values_read = false;
  made.value = reading.value.value_or(stand_in(threshold.kind));
  made.where = reading.where;
  threshold.bands.push_back(std::move(made));
  return sound;
}

void resolve_values(Resolver& resolver, const DraftThreshold& draft, Threshold& threshold) {
  bool edges_read = true, values_read = true;
  if (draft.bands.empty()) {
    const Reading reading = value_from(resolver, draft, threshold.kind, draft.value, draft.mg_dl, draft.mmol_l,
                                       draft.kind.text.c_str(), draft.where);
    Band band{};
    values_read = reading.value.has_value();
    band.value = reading.value.value_or(stand_in(threshold.kind));
    band.where = reading.where;
    threshold.bands.push_back(std::move(band));
  } else {
    for (const MaybeWord* word : {&draft.value, &draft.mg_dl, &draft.mmol_l}) {
      refuse(resolver, *word,
             word == &draft.value   ? "value"
             : word == &draft.mg_dl ? "mg-dl"
                                    : "mmol-l",
             draft.kind.text + " with bands", {"id", "least", "most", "source", "pair-exception"});
    }
    for (const DraftBand& band : draft.bands)
      edges_read = add_band(resolver, draft, band, threshold, values_read) && edges_read;
    if (edges_read) check_bands(resolver, threshold);
  }
  Threshold to_check = threshold;
  if (!values_read) to_check.bands.clear();  // the borders are still read and told about
  threshold.range = range_from(resolver, draft, to_check);
}

}  // namespace

void resolve_thresholds(Resolver& resolver) {
  for (const DraftThreshold& draft : resolver.draft.thresholds) {
    Threshold threshold{};
    threshold.name = draft.id ? draft.id->text : "";
    threshold.where = draft.where;
    threshold.least = draft.least ? draft.least->text : "";
    threshold.most = draft.most ? draft.most->text : "";
    const char* element = draft.kind.text.c_str();
    const auto kind = place_in_words(resolver, draft.kind, "threshold", words::all_of(words::kThresholdKinds));
    threshold.kind = static_cast<ThresholdKind>(kind.value_or(0));
    if (kind) resolve_values(resolver, draft, threshold);
    if (draft.pair_exception) {
      if (threshold.kind == ThresholdKind::glucose) {
        place_in(resolver, resolver.sources, draft.pair_exception);
      } else {
        refuse(resolver, draft.pair_exception, "pair-exception", element, {"id", "value", "least", "most", "source"});
      }
    }
    threshold.label = text_from(resolver, draft.label, element, draft.where);
    if (draft.note) threshold.note = text_from(resolver, *draft.note, "note", draft.where);
    threshold.source = source_from(resolver, draft.source, element, threshold.name, draft.where);
    resolver.protocol.thresholds.push_back(std::move(threshold));
  }
}

std::optional<ThresholdId> threshold_from(Resolver& resolver, const MaybeWord& word,
                                          std::initializer_list<ThresholdKind> wanted) {
  const auto id = as_id<ThresholdId>(place_in(resolver, resolver.thresholds, word));
  if (!id) return std::nullopt;
  const ThresholdKind kind = resolver.protocol[*id].kind;
  if (std::find(wanted.begin(), wanted.end(), kind) != wanted.end()) return id;
  std::string names;
  for (const ThresholdKind each : wanted) names += (names.empty() ? "" : " or ") + std::string(name_of(each));
  resolver.error(word->where, WrongThresholdKind{word->text, std::string(name_of(kind)), names},
                 Because{"`" + word->text + "` is a " + std::string(name_of(kind)), resolver.protocol[*id].where});
  return std::nullopt;
}

bool is_told(const Resolver& resolver, const Where& value) {
  return std::any_of(resolver.findings.begin(), resolver.findings.end(), [&](const Finding& finding) {
    const Where& where = finding.where;
    return where.line == value.line && where.column >= value.column && where.column <= value.column + value.length;
  });
}

std::optional<ThresholdId> needed_threshold(Resolver& resolver, const MaybeWord& word,
                                            std::initializer_list<ThresholdKind> wanted, const char* attribute,
                                            const char* element, const Where& where) {
  if (needed(resolver, word, attribute, element, where) == nullptr) return std::nullopt;
  return threshold_from(resolver, word, wanted);
}

std::optional<ThresholdId> in_unit(Resolver& resolver, std::optional<ThresholdId> threshold, const MaybeWord& word,
                                   Unit unit) {
  if (!threshold) return std::nullopt;
  for (const Band& band : resolver.protocol[*threshold].bands) {
    const auto* quantity = std::get_if<Quantity>(&band.value);
    if (quantity == nullptr || quantity->unit == unit) continue;
    resolver.error(word->where, WrongUnit{word->text + ": " + text_from_quantity(*quantity), std::string(ucum(unit))},
                   Because{"`" + word->text + "` is written in another unit", band.where});
    return std::nullopt;
  }
  return threshold;
}

}  // namespace rushlight
