#include "verify/dose_amount.hpp"

#include <algorithm>

namespace rushlight {
namespace {

struct NumberIn {
  Decimal operator()(const Quantity& quantity) const { return quantity.value; }
  Decimal operator()(BodyWeight weight) const { return weight.in(kKilogram); }
  Decimal operator()(int count) const { return Decimal::whole(count); }
  template <class Other>
  Decimal operator()(const Other&) const {
    return Decimal{};
  }
};

class RowAmount {
 public:
  RowAmount(const Protocol& protocol, const DoseGrounds& grounds,
            const std::function<std::optional<Decimal>(DoseId)>& other)
      : protocol_(protocol), grounds_(grounds), other_(other) {}

  std::optional<Decimal> operator()(const DoseRow::Withheld&) const { return std::nullopt; }
  std::optional<Decimal> operator()(const DoseRow::Fixed& cell) const { return number(cell.amount); }
  std::optional<Decimal> operator()(const DoseRow::PerKilogram& cell) const {
    if (!grounds_.context.weight) return std::nullopt;
    Decimal kilograms = grounds_.context.weight->in(kKilogram);
    if (cell.over) kilograms = std::max(Decimal{}, kilograms - number(*cell.over));
    const Decimal amount = product(number(cell.amount), kilograms);
    return cell.plus ? amount + number(*cell.plus) : amount;
  }
  std::optional<Decimal> operator()(const DoseRow::PerYear& cell) const {
    return product(number(cell.amount), Decimal::whole(grounds_.context.age.completed_years()));
  }
  std::optional<Decimal> operator()(const DoseRow::OfDailyDose& cell) const { return of_daily_dose(cell.percent); }
  std::optional<Decimal> operator()(const DoseRow::Correction& cell) const {
    const auto* target = std::get_if<GlucoseLimit>(&limit(cell.target));
    if (!grounds_.glucose || target == nullptr) return std::nullopt;
    const Decimal above = std::max(Decimal{}, *grounds_.glucose - target->in(grounds_.unit));
    return quotient(times(above, cell.times), grounds_.factor);
  }
  std::optional<Decimal> operator()(const DoseRow::OfDose& cell) const {
    const std::optional<Decimal> whole = other_(cell.dose);
    if (!whole) return std::nullopt;
    const Decimal amount = times(*whole, cell.times);
    return cell.during ? within(amount, std::get<Duration>(limit(*cell.during))) : amount;
  }
  std::optional<Decimal> operator()(const DoseRow::LargerOf& cell) const {
    const std::optional<Decimal> one = other_(cell.one), two = other_(cell.other);
    if (!one || !two) return one ? one : two;
    return std::max(*one, *two);
  }

  Decimal number(ThresholdId id) const { return std::visit(NumberIn{}, limit(id)); }
  std::optional<Decimal> of_daily_dose(ThresholdId percent) const {
    if (!grounds_.daily_dose) return std::nullopt;
    return quotient(product(number(percent), grounds_.daily_dose->in(kInsulinUnit)), Decimal::whole(100));
  }
  std::optional<Decimal> of_weight(ThresholdId each) const {
    if (!grounds_.context.weight) return std::nullopt;
    return product(number(each), grounds_.context.weight->in(kKilogram));
  }

 private:
  const Limit& limit(ThresholdId id) const { return value_in(protocol_[id], grounds_.context); }
  Decimal times(Decimal value, const std::optional<ThresholdId>& factor) const {
    return factor ? product(value, number(*factor)) : value;
  }

  const Protocol& protocol_;
  const DoseGrounds& grounds_;
  const std::function<std::optional<Decimal>(DoseId)>& other_;
};

}  // namespace

std::optional<Decimal> amount_of_row(const Protocol& protocol, const Dose& dose, const DoseRow& row,
                                     const DoseGrounds& grounds,
                                     const std::function<std::optional<Decimal>(DoseId)>& other) {
  const RowAmount amount(protocol, grounds, other);
  std::optional<Decimal> value = std::visit(amount, row.cell);
  if (!value) return std::nullopt;
  if (dose.insulin) {  // bounded before it is rounded down, so that the most is never passed
    if (row.most) value = std::min(*value, amount.number(*row.most));
    if (row.most_percent) value = std::min(*value, amount.of_daily_dose(*row.most_percent).value_or(*value));
    if (row.most_per_kg) value = std::min(*value, amount.of_weight(*row.most_per_kg).value_or(*value));
    value = rounded(*value, dose.round, amount.number(dose.to));
    return *value > Decimal{} ? value : std::nullopt;
  }
  value = rounded(*value, dose.round, amount.number(dose.to));
  if (row.least) value = std::max(*value, amount.number(*row.least));
  if (row.most) value = std::min(*value, amount.number(*row.most));
  return value;
}

}  // namespace rushlight
