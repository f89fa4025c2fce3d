#include "episode/dose_result.hpp"

#include "episode/phrases.hpp"
#include "episode/words.hpp"

namespace rushlight {
namespace {

Quantity quantity_of(const Limit& limit) {
  if (const auto* quantity = std::get_if<Quantity>(&limit)) return *quantity;
  if (const auto* weight = std::get_if<BodyWeight>(&limit)) return weight->quantity();
  return Quantity{Decimal{}, Unit::one};
}

/// One row of a dose table being worked out, its sum written down as it goes.
class Sum {
 public:
  Sum(const Scene& scene, const Dose& dose, const DoseRow& row, Language language)
      : scene_(scene), dose_(dose), row_(row), language_(language) {}

  std::optional<DoseResult> result() {
    if (const auto* withheld = std::get_if<DoseRow::Withheld>(&row_.cell)) {
      DoseResult none;
      none.working = plain_words(withheld->reason, language_);
      none.source = row_.source;
      return none;
    }
    if (!amount()) return std::nullopt;
    const Decimal as_fixed = value_;
    round();
    bound(row_.least, true);
    bound(row_.most, false);
    if (value_ != as_fixed) sum_.share.clear();  // it was the share of another amount
    sum_.amount = Quantity{value_, dose_.unit};
    sum_.source = row_.source;
    return std::move(sum_);
  }

 private:
  Decimal limit(ThresholdId id) {
    sum_.used.push_back(id);
    return quantity_of(value_in(scene_.protocol[id], scene_.context)).value;
  }

  std::string written(Decimal value) const { return said(Quantity{value, dose_.unit}, language_); }

  bool amount() {
    if (const auto* fixed = std::get_if<DoseRow::Fixed>(&row_.cell)) {
      value_ = limit(fixed->amount);
      sum_.working = plain_words(scene_.protocol[fixed->amount].label, language_) + ": " + written(value_);
      if (fixed->share) sum_.share = plain_words(*fixed->share, language_);
      return true;
    }
    if (!scene_.child.weight) return false;
    const Decimal each = limit(std::get<DoseRow::PerKilogram>(row_.cell).amount);
    const Decimal weight = scene_.child.weight->in(kKilogram);
    value_ = product(each, weight);
    sum_.working = said(Quantity{each, Unit::gram_per_kilogram}, language_) + " x " +
                   said(Quantity{weight, Unit::kilogram}, language_) + " = " + written(value_);
    return true;
  }

  void round() {
    const Decimal step = quantity_of(value_in(scene_.protocol[dose_.to], scene_.context)).value;
    const Decimal whole = rounded(value_, dose_.round, step);
    if (whole == value_) return;
    const Phrase how = dose_.round == RoundDirection::up     ? Phrase::rounded_up_to
                       : dose_.round == RoundDirection::down ? Phrase::rounded_down_to
                                                             : Phrase::rounded_to;
    sum_.working += ", " + phrase(how, language_, written(whole));
    value_ = whole;
  }

  void bound(const std::optional<ThresholdId>& end, bool is_floor) {
    if (!end) return;
    const Decimal border = limit(*end);
    if (is_floor ? value_ >= border : value_ <= border) return;
    sum_.working += ", " + phrase(is_floor ? Phrase::at_least : Phrase::at_most, language_, written(border));
    value_ = border;
  }

  const Scene& scene_;
  const Dose& dose_;
  const DoseRow& row_;
  Language language_;
  Decimal value_;
  DoseResult sum_;
};

}  // namespace

DoseResult dose_for(const Scene& scene, DoseId id, Language language) {
  const Dose& dose = scene.protocol[id];
  for (const DoseRow& row : dose.rows) {
    if (!all_hold(scene, row.when, Unanswered::is_cant_tell)) continue;
    if (std::optional<DoseResult> result = Sum(scene, dose, row, language).result()) return std::move(*result);
  }
  DoseResult none;
  none.working = phrase(Phrase::no_dose_known, language);
  return none;
}

}  // namespace rushlight
