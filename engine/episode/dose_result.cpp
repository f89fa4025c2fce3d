#include "episode/dose_result.hpp"

#include <algorithm>

#include "episode/insulin.hpp"
#include "episode/phrases.hpp"
#include "episode/words.hpp"

namespace rushlight {
namespace {

Quantity quantity_of(const Limit& limit) {
  if (const auto* quantity = std::get_if<Quantity>(&limit)) return *quantity;
  if (const auto* weight = std::get_if<BodyWeight>(&limit)) return weight->quantity();
  return Quantity{Decimal{}, Unit::one};
}

DoseResult worked_out(const Scene& scene, DoseId id, Language language);

/// One row of a dose table being worked out, its sum written down as it goes.
class Sum {
 public:
  Sum(const Scene& scene, const Dose& dose, const DoseRow& row, Language language)
      : scene_(scene), dose_(dose), row_(row), language_(language) {}

  /// Empty when the amount cannot be worked out for this child: the row does not match.
  std::optional<DoseResult> result() {
    sum_.source = row_.source;
    if (!std::visit([&](const auto& cell) { return amount(cell); }, row_.cell)) return std::nullopt;
    if (withheld_) return std::move(sum_);
    if (dose_.insulin) {
      bound(row_.most, false);  // before rounding down, so that the most is never passed
      bound_by_daily_dose();
      bound_by_weight();
      round();
      if (value_ > Decimal{}) {
        sum_.amount = Quantity{value_, dose_.unit};
      } else {
        // Less than the pen can give is not nothing: a toddler with ketones needs it, and the clinic knows a way.
        sum_.clinic_decides = true;
        sum_.working = phrase(Phrase::insulin_less_than_a_step, language_) + " " +
                       phrase(Phrase::call_for_the_dose, language_);
      }
      return std::move(sum_);
    }
    const Decimal as_fixed = value_;
    round();
    bound(row_.least, true);
    bound(row_.most, false);
    if (value_ != as_fixed) sum_.share.clear();  // it was the share of another amount
    sum_.amount = Quantity{value_, dose_.unit};
    return std::move(sum_);
  }

 private:
  const Limit& limit_in(ThresholdId id) {
    sum_.used.push_back(id);
    return value_in(scene_.protocol[id], scene_.context);
  }
  Quantity quantity(ThresholdId id) { return quantity_of(limit_in(id)); }

  std::string written(Decimal value) const { return said(Quantity{value, dose_.unit}, language_); }
  std::string written(const Quantity& quantity) const { return said(quantity, language_); }
  std::string label_of(DoseId id) const { return plain_words(scene_.protocol[id].label, language_); }

  bool amount(const DoseRow::Withheld& cell) {
    sum_.working = plain_words(cell.reason, language_);
    return withheld_ = true;
  }

  bool amount(const DoseRow::Fixed& cell) {
    value_ = quantity(cell.amount).value;
    sum_.working = plain_words(scene_.protocol[cell.amount].label, language_) + ": " + written(value_);
    if (cell.share) sum_.share = plain_words(*cell.share, language_);
    return true;
  }

  bool amount(const DoseRow::PerKilogram& cell) {
    if (!scene_.child.weight) return false;
    const Quantity each = quantity(cell.amount);
    Decimal kilograms = scene_.child.weight->in(kKilogram);
    if (cell.over) kilograms = std::max(Decimal{}, kilograms - quantity(*cell.over).value);
    value_ = product(each.value, kilograms);
    sum_.working = written(each) + " x " + written(Quantity{kilograms, Unit::kilogram});
    if (cell.plus) {
      const Decimal more = quantity(*cell.plus).value;
      value_ = value_ + more;
      sum_.working = written(more) + " + " + sum_.working;
    }
    return equals();
  }

  bool amount(const DoseRow::PerYear& cell) {
    const Quantity each = quantity(cell.amount);
    const Decimal years = Decimal::whole(scene_.context.age.completed_years());
    value_ = product(each.value, years);
    sum_.working = written(Quantity{each.value, Unit::microgram}) + " x " + written(Quantity{years, Unit::year});
    return equals();
  }

  bool amount(const DoseRow::OfDailyDose& cell) {
    if (!scene_.child.total_daily_dose) return false;
    const Quantity percent = quantity(cell.percent);
    value_ = of_daily_dose(percent.value);
    sum_.working = written(percent) + " x " +
                   phrase(Phrase::a_day, language_, written(scene_.child.total_daily_dose->in(kInsulinUnit)));
    return equals();
  }

  bool amount(const DoseRow::Correction& cell) {
    const std::optional<FactId> fact = scene_.protocol.fact_named("glucose");
    const std::optional<Value> told = fact ? value_of(scene_, *fact) : std::nullopt;
    const auto* reading = told ? std::get_if<Glucose>(&*told) : nullptr;
    const std::optional<CorrectionFactor>& factor = scene_.child.correction_factor;
    const auto* target = std::get_if<GlucoseLimit>(&limit_in(cell.target));
    // HI is no number to subtract from, and a factor in the other unit is never converted.
    if (reading == nullptr || !factor || target == nullptr || !reading->number() || factor->unit != reading->unit())
      return false;
    const Unit unit = unit_of(factor->unit);
    const Decimal above = std::max(Decimal{}, *reading->number() - target->in(factor->unit));
    value_ = above;
    sum_.working = phrase(Phrase::above_target, language_,
                          "(" + said(*reading, language_) + " - " + written(Quantity{target->in(factor->unit), unit}) + ")",
                          written(Quantity{factor->fall, unit}));
    multiply(cell.times);
    value_ = quotient(value_, factor->fall);  // last, so that nothing is lost before
    return equals();
  }

  bool amount(const DoseRow::OfDose& cell) {
    const std::optional<Decimal> whole = other(cell.dose);
    if (!whole) return true;
    value_ = *whole;
    if (!cell.during && !cell.times) return true;  // the same amount: its sum says all
    sum_.working = label_of(cell.dose) + " " + written(value_);
    multiply(cell.times);
    if (cell.during) {
      const Duration time = std::get<Duration>(limit_in(*cell.during));
      value_ = within(value_, time);
      sum_.working += " x " + text_from_duration(time) + " / 1 h";
    }
    return equals();
  }

  bool amount(const DoseRow::LargerOf& cell) {
    const DoseResult one = worked_out(scene_, cell.one, language_), two = worked_out(scene_, cell.other, language_);
    if (!one.amount && !two.amount) {
      sum_.working = one.working;
      sum_.clinic_decides = one.clinic_decides || two.clinic_decides;
      return withheld_ = true;
    }
    const Decimal first = one.amount ? one.amount->value : Decimal{}, second = two.amount ? two.amount->value : Decimal{};
    const DoseResult& larger = first < second ? two : one;
    value_ = std::max(first, second);
    sum_.used = larger.used;
    sum_.working = larger.working;
    if (one.amount && two.amount) {
      sum_.working += "; " + phrase(Phrase::larger_of, language_, label_of(cell.one) + " " + written(first),
                                    label_of(cell.other) + " " + written(second));
    }
    return true;
  }

  /// The amount of another dose and its sum; without one its reason is this row's reason.
  std::optional<Decimal> other(DoseId id) {
    const DoseResult result = worked_out(scene_, id, language_);
    sum_.used.insert(sum_.used.end(), result.used.begin(), result.used.end());
    sum_.working = result.working;
    if (result.amount) return result.amount->value;
    sum_.clinic_decides = result.clinic_decides;
    withheld_ = true;
    return std::nullopt;
  }

  void multiply(const std::optional<ThresholdId>& factor) {
    if (!factor) return;
    const Decimal times = quantity(*factor).value;
    value_ = product(value_, times);
    sum_.working += " x " + text_from_decimal(times);
  }

  // Two places are what a person can follow; the sum goes on with all of them.
  bool equals() {
    constexpr Decimal kHundredth = Decimal::of_micros(10'000);
    sum_.working += " = " + written(rounded(value_, RoundDirection::down, kHundredth));
    return true;
  }

  Decimal of_daily_dose(Decimal percent) const {
    return quotient(product(percent, scene_.child.total_daily_dose->in(kInsulinUnit)), Decimal::whole(100));
  }

  void round() {
    const Decimal step = dose_.insulin ? insulin_step_for(scene_, dose_).in(kInsulinUnit)
                                       : quantity_of(value_in(scene_.protocol[dose_.to], scene_.context)).value;
    const Decimal whole = rounded(value_, dose_.round, step);
    if (whole == value_) return;
    const Phrase how = dose_.round == RoundDirection::up     ? Phrase::rounded_up_to
                       : dose_.round == RoundDirection::down ? Phrase::rounded_down_to
                                                             : Phrase::rounded_to;
    sum_.working += ", " + phrase(how, language_, written(whole));
    value_ = whole;
  }

  void bound(const std::optional<ThresholdId>& end, bool is_floor) {
    if (end) bound(quantity(*end).value, is_floor);
  }
  void bound_by_daily_dose() {
    if (!row_.most_percent || !scene_.child.total_daily_dose) return;
    bound(of_daily_dose(quantity(*row_.most_percent).value), false);
  }
  void bound_by_weight() {
    if (!row_.most_per_kg || !scene_.child.weight) return;
    bound(product(quantity(*row_.most_per_kg).value, scene_.child.weight->in(kKilogram)), false);
  }
  void bound(Decimal border, bool is_floor) {
    if (is_floor ? value_ >= border : value_ <= border) return;
    sum_.working += ", " + phrase(is_floor ? Phrase::at_least : Phrase::at_most, language_, written(border));
    value_ = border;
  }

  const Scene& scene_;
  const Dose& dose_;
  const DoseRow& row_;
  Language language_;
  Decimal value_;
  bool withheld_ = false;
  DoseResult sum_;
};

bool leaves_all_to_the_clinic(const Dose& dose) {
  return std::all_of(dose.rows.begin(), dose.rows.end(),
                     [](const DoseRow& row) { return std::holds_alternative<DoseRow::Withheld>(row.cell); });
}

DoseResult worked_out(const Scene& scene, DoseId id, Language language) {
  const Dose& dose = scene.protocol[id];
  const std::optional<Withholding> withheld =
      dose.insulin ? insulin_withheld(scene, dose, language) : std::optional<Withholding>{};
  DoseResult none;
  if (withheld) {
    none.working = withheld->reason;
    none.clinic_decides = withheld->clinic_decides;
    if (!withheld->table_first || leaves_all_to_the_clinic(dose)) return none;
  }
  for (const DoseRow& row : dose.rows) {
    if (!all_hold(scene, row.when, Unanswered::is_cant_tell)) continue;
    std::optional<DoseResult> result = Sum(scene, dose, row, language).result();
    // Only a row that is withheld by itself says that none is due, never one behind a row that cannot be worked out.
    if (withheld && (!result || result->amount || result->clinic_decides)) return none;
    if (result) return std::move(*result);
  }
  if (withheld) return none;
  none.working = phrase(Phrase::no_dose_known, language);
  return none;
}

/// A pump is finer than the pen that stands in for it when its set fails, and most doses for ketones go in by pen.
void say_for_the_pen(const Scene& scene, const Dose& dose, Language language, DoseResult& result) {
  const Decimal usual = quantity_of(value_in(scene.protocol[dose.to], scene.context)).value;
  const Decimal by_pen = rounded(result.amount->value, RoundDirection::down, usual);
  if (scene.child.delivery == Delivery::injections || by_pen == result.amount->value) return;
  const std::string steps = said(Quantity{usual, dose.unit}, language);
  result.working += "; " + (by_pen > Decimal{} ? phrase(Phrase::pen_in_steps, language, steps,
                                                        said(Quantity{by_pen, dose.unit}, language))
                                               : phrase(Phrase::pen_too_coarse, language, steps));
}

}  // namespace

DoseResult dose_for(const Scene& scene, DoseId id, Language language) {
  DoseResult result = worked_out(scene, id, language);
  if (result.amount && scene.protocol[id].insulin) say_for_the_pen(scene, scene.protocol[id], language, result);
  return result;
}

bool is_for_the_clinic(const Scene& scene, const Action& action) {
  return action.dose && dose_for(scene, *action.dose, scene.episode.language).clinic_decides;
}

}  // namespace rushlight
