#include "drawn.hpp"

#include <algorithm>

#include "measure/decimal.hpp"

namespace rushlight::tests {

template <class Kind>
std::vector<Kind> Drawn::limits(ThresholdKind kind) const {
  std::vector<Kind> found;
  const auto at = limits_.find(kind);
  if (at == limits_.end()) return found;
  for (const Limit& limit : at->second) {
    if (const auto* value = std::get_if<Kind>(&limit)) found.push_back(*value);
  }
  return found;
}

Decimal Drawn::around(Decimal border, Decimal grain) {
  switch (dice_.below(4)) {
    case 0:
      return border;
    case 1:
      return border > grain ? border - grain : border;
    case 2:
      return border + grain;
    default:
      return border + Decimal::of_micros(grain.micros() * static_cast<std::int64_t>(dice_.below(30)));
  }
}

Value Drawn::any_value(const Fact& fact, GlucoseUnit unit) {
  if (dice_.chance(6)) return CantTell{};
  switch (fact.kind) {
    case FactKind::choice:
    case FactKind::ordered_choice:
      return Chosen{static_cast<std::uint16_t>(dice_.below(fact.options.size()))};
    case FactKind::count: {
      std::vector<int> known = limits<int>(ThresholdKind::count);
      known.push_back(0);
      return Count{std::max(0, dice_.one_of(known) + static_cast<int>(dice_.below(3)) - 1)};
    }
    case FactKind::glucose: {
      if (dice_.chance(4)) return dice_.chance(50) ? Glucose::lo(unit) : Glucose::hi(unit);
      const std::vector<GlucoseLimit> known = limits<GlucoseLimit>(ThresholdKind::glucose);
      const Decimal grain = unit == GlucoseUnit::mg_per_dl ? Decimal::whole(1) : Decimal::of_micros(100'000);
      const Decimal number = known.empty() ? Decimal::whole(100) : around(dice_.one_of(known).in(unit), grain);
      const MeterRange range = meter_range(unit);
      return Glucose::reading(std::min(range.most, std::max(range.least, number)), unit);
    }
    case FactKind::ketones: {
      if (dice_.chance(3)) return KetoneReading::hi();
      const std::vector<BloodKetones> known = limits<BloodKetones>(ThresholdKind::ketones);
      const Decimal number = known.empty()
                                 ? Decimal::whole(1)
                                 : around(dice_.one_of(known).in(kMillimolePerLitre), Decimal::of_micros(100'000));
      return KetoneReading::reading(BloodKetones{std::min(number, Decimal::whole(8)), kMillimolePerLitre});
    }
    case FactKind::time_since: {
      if (dice_.chance(20)) return NotLately{};
      const std::vector<Duration> known = limits<Duration>(ThresholdKind::time);
      const auto minutes = known.empty() ? 60 : dice_.one_of(known).count() / 60;
      return Ago{Duration{60 * (minutes + static_cast<std::int64_t>(dice_.below(3)))}};
    }
    case FactKind::age:
    case FactKind::weight:
    case FactKind::insulin:
      break;
  }
  return CantTell{};
}

// Most children are awake: otherwise every night is over at once.
Value Drawn::usual_value(const Fact& fact, GlucoseUnit unit) {
  if (!fact.options.empty() && dice_.chance(70)) {
    const bool good_is_no = fact.options.front().name == "yes" && fact.options.back().name == "no" &&
                            fact.name != "swallow" && fact.name != "breathing-normally" && fact.options.size() == 2;
    return Chosen{static_cast<std::uint16_t>(good_is_no ? 1 : 0)};
  }
  return any_value(fact, unit);
}

Values Drawn::any_values(GlucoseUnit unit) {
  Values values;
  for (const Protocol* protocol : {&was_, &now_}) {
    for (const Fact& fact : protocol->facts) {
      if (!fact.from_child) values.emplace(fact.name, usual_value(fact, unit));
    }
  }
  return values;
}

Child Drawn::any_child() {
  Child child{};
  child.name = "Mara";
  child.birth = Day{std::chrono::sys_days{std::chrono::year{2026} / 3 / 1} -
                    std::chrono::days(30 + static_cast<int>(dice_.below(18 * 365)))};
  child.weight = BodyWeight{Decimal::whole(3 + static_cast<int>(dice_.below(70))), kKilogram};
  child.weighed = Day{std::chrono::sys_days{std::chrono::year{2026} / 2 / 20}};
  child.unit = dice_.chance(50) ? GlucoseUnit::mg_per_dl : GlucoseUnit::mmol_per_l;
  child.delivery = static_cast<Delivery>(dice_.below(3));
  child.strips = static_cast<Strips>(dice_.below(3));
  if (dice_.chance(60))
    child.rescue.push_back({static_cast<RescueKind>(dice_.below(3)), std::nullopt, "kitchen", std::nullopt});
  child.language = Language::en;
  return child;
}

}  // namespace rushlight::tests
