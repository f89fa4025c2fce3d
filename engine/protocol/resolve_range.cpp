#include "protocol/resolve_parts.hpp"

namespace rushlight {

namespace {

// A border of a glucose range is written in one unit; in the other it is what that family prints for it.
std::optional<GlucoseLimit> glucose_border(Resolver& resolver, const Word& word) {
  const auto quantity = quantity_from_word(resolver, word, {Unit::mg_per_dl, Unit::mmol_per_l});
  if (!quantity) return std::nullopt;
  if (quantity->unit == Unit::mg_per_dl) {
    return GlucoseLimit{quantity->value, other_value(quantity->value, GlucoseUnit::mg_per_dl)};
  }
  return GlucoseLimit{other_value(quantity->value, GlucoseUnit::mmol_per_l), quantity->value};
}

std::optional<Limit> border(Resolver& resolver, ThresholdKind kind, const MaybeWord& word) {
  if (!word) return std::nullopt;
  if (kind != ThresholdKind::glucose) return limit_from_word(resolver, kind, *word);
  const std::optional<GlucoseLimit> glucose = glucose_border(resolver, *word);
  if (!glucose) return std::nullopt;
  return Limit{*glucose};
}

struct Less {
  GlucoseUnit unit;
  bool operator()(const GlucoseLimit& a, const GlucoseLimit& b) const { return a.in(unit) < b.in(unit); }
  bool operator()(const Quantity& a, const Quantity& b) const { return a.value < b.value; }
  template <class Value>
  bool operator()(const Value& a, const Value& b) const {
    return a < b;
  }
  template <class A, class B>
  bool operator()(const A&, const B&) const {
    return false;
  }
};

bool less(const Limit& a, const Limit& b, GlucoseUnit unit) { return std::visit(Less{unit}, a, b); }

// A clock range may pass midnight: 20:00 to 06:00.
bool outside(const Limit& value, const Limit& least, const Limit& most, GlucoseUnit unit) {
  const bool below = less(value, least, unit), above = less(most, value, unit);
  const bool passes_midnight = std::holds_alternative<ClockTime>(value) && less(most, least, unit);
  return passes_midnight ? below && above : below || above;
}

bool same_unit(const Limit& a, const Limit& b) {
  const auto* first = std::get_if<Quantity>(&a);
  const auto* second = std::get_if<Quantity>(&b);
  return first == nullptr || second == nullptr || first->unit == second->unit;
}

void check_unit(Resolver& resolver, const std::optional<Limit>& border_value, const Word& word, const Limit& value) {
  if (border_value && !same_unit(*border_value, value)) {
    resolver.error(word.where, WrongUnit{word.text, std::string(ucum(std::get<Quantity>(value).unit))});
  }
}

void check_value(Resolver& resolver, const Threshold& threshold, const Band& band, const Limit& least,
                 const Limit& most) {
  const bool glucose = threshold.kind == ThresholdKind::glucose;
  for (const GlucoseUnit unit : {GlucoseUnit::mg_per_dl, GlucoseUnit::mmol_per_l}) {
    if (outside(band.value, least, most, unit)) {
      resolver.error(band.where, OutOfRange{threshold.name, text_from_limit(band.value, unit),
                                            text_from_limit(least, unit), text_from_limit(most, unit)});
      return;
    }
    if (!glucose) return;
  }
}

}  // namespace

std::optional<Range> range_from(Resolver& resolver, const DraftThreshold& draft, const Threshold& threshold) {
  const char* element = draft.kind.text.c_str();
  needed(resolver, draft.least, "least", element, draft.where);
  needed(resolver, draft.most, "most", element, draft.where);
  const std::optional<Limit> least = border(resolver, threshold.kind, draft.least);
  const std::optional<Limit> most = border(resolver, threshold.kind, draft.most);
  if (!least || !most) return std::nullopt;
  const Range range{*least, *most};
  if (threshold.bands.empty()) return range;
  const Limit& first = threshold.bands.front().value;
  if (!same_unit(*least, first) || !same_unit(*most, first)) {
    check_unit(resolver, least, *draft.least, first);
    check_unit(resolver, most, *draft.most, first);
    return range;
  }
  if (threshold.kind != ThresholdKind::clock && less(*most, *least, GlucoseUnit::mg_per_dl)) {
    resolver.error(draft.least->where, OutOfRange{"least", draft.least->text, "", draft.most->text});
    return range;
  }
  for (const Band& band : threshold.bands) check_value(resolver, threshold, band, *least, *most);
  return range;
}

}  // namespace rushlight
