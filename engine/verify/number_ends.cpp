#include <algorithm>

#include "verify/law_properties.hpp"
#include "verify/neighbours.hpp"
#include "verify/properties.hpp"
#include "verify/step_parts.hpp"

namespace rushlight {

namespace {

// A glucose below this needs treatment whoever the child is, and no night ends calmly on it. Source: International
// Hypoglycaemia Study Group, ADA and EASD, 2017, joint position statement, level 2.
constexpr GlucoseLimit kVeryLowForAll{Decimal::whole(54), Decimal::of_micros(3'000'000)};
constexpr const char* kLowSource = "International Hypoglycaemia Study Group 2017, level 2";
// Blood ketones from here on are treated at once. Source: ISPAD 2022, sick day management.
constexpr std::int64_t kHighKetones = Decimal::whole(3).micros();
constexpr const char* kKetonesSource = "ISPAD 2022, sick day management";

bool ends_without_a_call(const Step& step) {
  return (step.ends || step.ends_visit) && step.urgency < Urgency::clinic_now;
}

std::int64_t grain_of(const Table& table, FactKind kind) {
  constexpr std::int64_t kWhole = 1'000'000, kTenth = 100'000;
  return kind == FactKind::glucose && table.unit == GlucoseUnit::mg_per_dl ? kWhole : kTenth;
}

/// A border has a stretch of its own; between two of them lie all numbers a meter can show there.
bool is_border(const Protocol& protocol, const Table& table, std::int64_t value) {
  return std::any_of(protocol.thresholds.begin(), protocol.thresholds.end(), [&](const Threshold& threshold) {
    const bool reading = threshold.kind == ThresholdKind::glucose || threshold.kind == ThresholdKind::ketones;
    return reading && std::any_of(threshold.bands.begin(), threshold.bands.end(),
                                  [&](const Band& band) { return number_of(band.value, table.unit) == value; });
  });
}

/// Numbers that are dangerous: below a border (glucose), or from one on (ketones).
struct Dangerous {
  FactKind kind;
  std::int64_t border;
  const char* words;
  const char* source;

  /// One such number among those of the stretch, as near the border as it can be.
  std::optional<std::int64_t> in(const Protocol& protocol, const Table& table, const Dimension& dimension,
                                 std::size_t at) const {
    const std::vector<Stretch>& all = dimension.stretches;
    if (all[at].unknown) return std::nullopt;
    const std::int64_t grain = grain_of(table, kind), value = all[at].value;
    const bool alone = value == kMeterLo || value == kMeterHi || is_border(protocol, table, value);
    const std::int64_t least = alone ? value : at == 0 ? 0 : std::max<std::int64_t>(all[at - 1].value + grain, 0);
    const bool last = at + 1 == all.size() || all[at + 1].unknown;
    const std::int64_t most = alone ? value : last ? kMeterHi : all[at + 1].value - grain;
    if (kind == FactKind::glucose) return least < border ? std::optional(std::min(most, border - grain)) : std::nullopt;
    return most >= border ? std::optional(std::max(least, border)) : std::nullopt;
  }
};

Dangerous dangerous_of(FactKind kind, GlucoseUnit unit) {
  if (kind == FactKind::glucose) return {kind, kVeryLowForAll.in(unit).micros(), "very low", kLowSource};
  return {kind, kHighKetones, "ketones that are treated at once", kKetonesSource};
}

class NumberEnds {
 public:
  explicit NumberEnds(Checking& checking)
      : checking_(checking), protocol_(checking.protocol), first_to_ask_(checking.protocol.facts.size()) {}

  void look_at(const Step& step, const Tables& tables) {
    if (step.ends || tables.things > 0) return;
    for (std::size_t rule = 0; rule < step.rules.size(); ++rule) {
      const Rule& way = step.rules[rule];
      const bool elsewhere = !way.visits.empty() || !way.hands_over_to.empty();
      if (elsewhere || !ends_without_a_call(protocol_[way.go]) || is_told(way)) continue;
      for (const Ask& ask : step.asks) {
        const FactKind kind = protocol_[ask.fact].kind;
        if ((kind == FactKind::glucose || kind == FactKind::ketones) && may_be_new(step, ask) &&
            tell(step, tables, rule, ask.fact))
          break;
      }
    }
  }

 private:
  // A watch that looks out for the number says the same of the rule.
  bool is_told(const Rule& way) const {
    return std::any_of(checking_.findings.begin(), checking_.findings.end(), [&](const Finding& finding) {
      return finding.where == way.where && finding.kind.is<CalmEnd>();
    });
  }

  // What another step asked before, and let pass as fresh, that step has looked at: a low was taken out there.
  bool may_be_new(const Step& step, const Ask& ask) {
    if (!ask.fresh) return true;
    std::vector<bool>& first = first_to_ask_[ask.fact.index];
    if (first.empty()) first = first_to_ask(ask.fact);
    return first[static_cast<std::size_t>(&step - protocol_.steps.data())];
  }

  /// The steps that a night comes to with the question never asked before, by what is answered and done.
  std::vector<bool> first_to_ask(FactId fact) const {
    std::vector<bool> reached(protocol_.steps.size(), false);
    reached[protocol_.start.index] = true;
    for (bool more = true; more;) {
      more = false;
      for (const Way& way : checking_.graph.ways) {
        if (!reached[way.from.index] || reached[way.to.index] || ask_for(protocol_[way.from], fact) != nullptr)
          continue;
        reached[way.to.index] = more = true;
      }
    }
    return reached;
  }

  bool tell(const Step& step, const Tables& tables, std::size_t rule, FactId fact) {
    for (const Table& table : tables.tables) {
      const auto place = dimension_of(table, fact);
      if (!place) continue;
      const Dimension& dimension = table.dimensions[*place];
      const Dangerous danger = dangerous_of(protocol_[fact].kind, table.unit);
      const std::size_t count = dimension.stretches.size();
      for (std::size_t at = 0; at < count; ++at) {
        // From the number that is dangerous and nearest to the border.
        const std::size_t i = danger.kind == FactKind::glucose ? count - 1 - at : at;
        const auto value = danger.in(protocol_, table, dimension, i);
        if (!value) continue;
        const auto left = taken_by(table, rule, *place, i);
        if (!left) continue;
        Table shown = table;
        shown.dimensions[*place].stretches[i].value = *value;
        checking_.error(step.rules[rule].where,
                        NumberEndsCalmly{step.name, protocol_[step.rules[rule].go].name,
                                         example_of(protocol_, shown, *left), danger.words, danger.source});
        return true;
      }
      if (dimension.stretches.empty() || !dimension.stretches.back().unknown) continue;
      if (protocol_[step.rules[rule].go].urgency != Urgency::home) continue;
      if (!taken_by(table, rule, *place, dimension.stretches.size() - 1)) continue;
      checking_.warning(step.rules[rule].where,
                        UnknownIsCalm{"", step.name, protocol_[fact].name, protocol_[step.rules[rule].go].name});
      return true;
    }
    return false;
  }

  /// A child with this answer whom the rule takes.
  static std::optional<Box> taken_by(const Table& table, std::size_t rule, std::size_t place, std::size_t answer) {
    Box box = table.rules[rule];
    if (!box.sides[place].test(answer)) return std::nullopt;
    box.sides[place].reset();
    box.sides[place].set(answer);
    std::optional<Box> found;
    each_left_over(box, taken_before(table, rule), [&](const Box& left) {
      found = left;
      return false;
    });
    return found;
  }

  Checking& checking_;
  const Protocol& protocol_;
  std::vector<std::vector<bool>> first_to_ask_;  // by fact, then by step; empty until it is asked for
};

}  // namespace

void no_night_ends_calmly_on_a_dangerous_number(Checking& checking) {
  NumberEnds ends(checking);
  for (std::size_t i = 0; i < checking.protocol.steps.size(); ++i)
    ends.look_at(checking.protocol.steps[i], checking.tables[i]);
}

}  // namespace rushlight
