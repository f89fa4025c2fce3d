#include <algorithm>

#include "verify/properties.hpp"

namespace rushlight {

namespace {

/// Below this a child is low, and no insulin is given whatever a clinic writes: the glucose alert value.
/// Source: International Hypoglycaemia Study Group, ADA and EASD, 2017, joint position statement, level 1.
constexpr GlucoseLimit kLow{Decimal::whole(70), Decimal::of_micros(3'900'000)};

bool is_too_low(const GlucoseLimit& floor) {
  return floor.mg_per_dl < kLow.mg_per_dl || floor.mmol_per_l < kLow.mmol_per_l;
}

/// A clinic that says every dose by phone has a table that gives none.
bool gives_any(const Dose& dose) {
  return std::any_of(dose.rows.begin(), dose.rows.end(),
                     [](const DoseRow& row) { return !std::holds_alternative<DoseRow::Withheld>(row.cell); });
}

}  // namespace

void no_insulin_below_the_floor(Checking& checking) {
  const Protocol& protocol = checking.protocol;
  std::vector<bool> told(protocol.thresholds.size(), false);
  for (const Dose& dose : protocol.doses) {
    if (!dose.insulin || !gives_any(dose) || told[dose.insulin->floor.index]) continue;
    const Threshold& floor = protocol[dose.insulin->floor];
    for (const Band& band : floor.bands) {
      const auto* value = std::get_if<GlucoseLimit>(&band.value);
      if (value == nullptr || !is_too_low(*value)) continue;
      const GlucoseUnit unit = value->mg_per_dl < kLow.mg_per_dl ? GlucoseUnit::mg_per_dl : GlucoseUnit::mmol_per_l;
      told[dose.insulin->floor.index] = true;
      checking.error(band.where,
                     InsulinFloorLow{dose.name, floor.name, text_from_limit(*value, unit), text_from_limit(kLow, unit)},
                     Because{"dose `" + dose.name + "` takes it for its floor", dose.where});
    }
  }
}

// Extra rapid-acting insulin is given again after 2 h at the soonest. Source: ISPAD Clinical Practice Consensus
// Guidelines 2022, sick day management; London paediatric network and Philadelphia print the same 2 h, others 3 to 4 h.
static constexpr Duration kLeastBetweenDoses = std::chrono::hours{2};

void no_insulin_is_stacked(Checking& checking) {
  const Protocol& protocol = checking.protocol;
  for (const Dose& dose : protocol.doses) {
    if (!dose.insulin) continue;
    const Threshold& between = protocol[dose.insulin->no_stacking];
    for (const Band& band : between.bands) {
      const auto* time = std::get_if<Duration>(&band.value);
      if (time == nullptr || *time >= kLeastBetweenDoses) continue;
      checking.error(
          band.where,
          InsulinStacked{dose.name, between.name, text_from_duration(*time), text_from_duration(kLeastBetweenDoses)},
          Because{"dose `" + dose.name + "` takes it for its `no-stacking`", dose.where});
      return;  // one threshold is told once
    }
  }
}

void insulin_goes_by_a_dose(Checking& checking) {
  for (const Action& action : checking.protocol.actions) {
    if (action.kind == ActionKind::insulin && !action.dose)
      checking.error(action.where, InsulinWithoutDose{action.name});
  }
}

}  // namespace rushlight
