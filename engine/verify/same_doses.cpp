#include "verify/same_doses.hpp"

#include <algorithm>

#include "verify/counterparts.hpp"

namespace rushlight {

struct SameDoses::Test {
  const SameDoses& doses;
  bool operator()(const Compares& a, const Compares& b) const {
    return a.fact == b.fact && a.comparison == b.comparison && doses.value(a.limit, b.limit);
  }
  bool operator()(const Is& a, const Is& b) const { return a.fact == b.fact && a.options == b.options; }
  bool operator()(const CountedAtLeast& a, const CountedAtLeast& b) const {
    return a.counter == b.counter && doses.value(a.limit, b.limit);
  }
  bool operator()(const WasGiven& a, const WasGiven& b) const { return a.action == b.action; }
  bool operator()(const WithinClock& a, const WithinClock& b) const {
    return doses.value(a.from, b.from) && doses.value(a.up_to, b.up_to);
  }
  bool operator()(const HasChanged& a, const HasChanged& b) const { return a.mark == b.mark && a.changes == b.changes; }
  template <class A, class B>
  bool operator()(const A&, const B&) const {
    return false;
  }
};

struct SameDoses::Cell {
  const SameDoses& doses;
  const Same& same;
  bool operator()(const DoseRow::Fixed& a, const DoseRow::Fixed& b) const { return doses.value(a.amount, b.amount); }
  bool operator()(const DoseRow::PerKilogram& a, const DoseRow::PerKilogram& b) const {
    return doses.value(a.amount, b.amount) && doses.limit(a.over, b.over) && doses.limit(a.plus, b.plus);
  }
  bool operator()(const DoseRow::PerYear& a, const DoseRow::PerYear& b) const {
    return doses.value(a.amount, b.amount);
  }
  bool operator()(const DoseRow::OfDailyDose& a, const DoseRow::OfDailyDose& b) const {
    return doses.value(a.percent, b.percent);
  }
  bool operator()(const DoseRow::Correction& a, const DoseRow::Correction& b) const {
    return doses.value(a.target, b.target) && doses.limit(a.times, b.times);
  }
  bool operator()(const DoseRow::OfDose& a, const DoseRow::OfDose& b) const {
    return same(a.dose, b.dose) && doses.limit(a.during, b.during) && doses.limit(a.times, b.times);
  }
  bool operator()(const DoseRow::LargerOf& a, const DoseRow::LargerOf& b) const {
    return same(a.one, b.one) && same(a.other, b.other);
  }
  bool operator()(const DoseRow::Withheld&, const DoseRow::Withheld&) const { return true; }
  template <class A, class B>
  bool operator()(const A&, const B&) const {
    return false;
  }
};

bool SameDoses::value(ThresholdId was, ThresholdId now) const { return same_value(protocol_, was, now); }

bool SameDoses::limit(const std::optional<ThresholdId>& was, const std::optional<ThresholdId>& now) const {
  return was.has_value() == now.has_value() && (!was || value(*was, *now));
}

bool SameDoses::row(const DoseRow& was, const DoseRow& now, const Same& same) const {
  return std::visit(Cell{*this, same}, was.cell, now.cell) && limit(was.least, now.least) &&
         limit(was.most, now.most) && limit(was.most_percent, now.most_percent) &&
         limit(was.most_per_kg, now.most_per_kg);
}

bool SameDoses::sum(DoseId was, DoseId now) const {
  const Dose &a = protocol_[was], &b = protocol_[now];
  if (a.rows.size() != b.rows.size() || a.round != b.round || !value(a.to, b.to)) return false;
  const auto same = [&](DoseId one, DoseId other) { return sum(one, other); };
  return std::equal(a.rows.begin(), a.rows.end(), b.rows.begin(),
                    [&](const DoseRow& x, const DoseRow& y) { return row(x, y, same); });
}

bool SameDoses::table(DoseId was, DoseId now) const {
  const Dose &a = protocol_[was], &b = protocol_[now];
  if (!sum(was, now) || a.insulin.has_value() != b.insulin.has_value()) return false;
  if (a.insulin && !value(a.insulin->floor, b.insulin->floor)) return false;
  for (std::size_t i = 0; i < a.rows.size(); ++i) {
    const Conditions &one = a.rows[i].when, &other = b.rows[i].when;
    const auto same = [&](const Condition& x, const Condition& y) { return std::visit(Test{*this}, x.test, y.test); };
    if (!std::equal(one.begin(), one.end(), other.begin(), other.end(), same)) return false;
    if (const auto* of = std::get_if<DoseRow::OfDose>(&a.rows[i].cell)) {
      if (!table(of->dose, std::get<DoseRow::OfDose>(b.rows[i].cell).dose)) return false;
    }
    if (const auto* of = std::get_if<DoseRow::LargerOf>(&a.rows[i].cell)) {
      const auto& others = std::get<DoseRow::LargerOf>(b.rows[i].cell);
      if (!table(of->one, others.one) || !table(of->other, others.other)) return false;
    }
  }
  return true;
}

}  // namespace rushlight
