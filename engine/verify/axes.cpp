#include <algorithm>

#include "protocol/words.hpp"
#include "verify/decisions.hpp"
#include "verify/stretches.hpp"

namespace rushlight {

namespace {

constexpr std::int64_t kThousandth = 1'000;  // of micros: no number of a file or a meter has more than three places

const Fact* fact_of(const Protocol& protocol, const Subject& subject) {
  return subject.kind == Subject::Kind::fact ? &protocol.facts[subject.index] : nullptr;
}

AxisValue both(AxisValue::Kind kind, std::int64_t value, bool unknown = false) {
  return AxisValue{kind, {{value, unknown}, {value, unknown}}};
}

bool is_decimal(const Fact* fact) {
  return fact != nullptr && (fact->kind == FactKind::glucose || fact->kind == FactKind::ketones ||
                             fact->kind == FactKind::weight || fact->kind == FactKind::insulin);
}

struct Border {
  std::int64_t in[2];
  friend bool operator==(const Border&, const Border&) = default;
};

void add_border(std::vector<Border>& borders, const Border& border) {
  if (std::find(borders.begin(), borders.end(), border) == borders.end()) borders.push_back(border);
}

// Where the bands of the limits change is a border of the child's age and weight and of the clock.
void add_band_edges(std::vector<Border>& borders, const Subject& subject, const Band& band) {
  const auto add = [&](std::int64_t edge) { add_border(borders, Border{{edge, edge}}); };
  if (subject.kind == Subject::Kind::clock) {
    for (const auto& edge : {band.clock_from, band.clock_up_to}) {
      if (edge) add(edge->minutes());
    }
  } else if (subject == Subject{Subject::Kind::fact, fact_id(ChildFact::age).index}) {
    for (const auto& edge : {band.age_from, band.age_up_to}) {
      if (edge) add(edge->months());
    }
  } else if (subject == Subject{Subject::Kind::fact, fact_id(ChildFact::weight).index}) {
    for (const auto& edge : {band.weight_from, band.weight_up_to}) {
      if (edge) add(edge->in(kKilogram).micros());
    }
  }
}

// A threshold is a border of what is compared with it; the kinds of subject and limit fit, the resolver saw to that.
bool is_border_of(const Protocol& protocol, const Subject& subject, const Threshold& threshold) {
  if (subject.kind == Subject::Kind::clock) return threshold.kind == ThresholdKind::clock;
  if (subject.kind == Subject::Kind::counter) return threshold.kind == ThresholdKind::count;
  const Fact* fact = fact_of(protocol, subject);
  if (fact == nullptr) return false;
  switch (fact->kind) {
    case FactKind::glucose:
      return threshold.kind == ThresholdKind::glucose;
    case FactKind::ketones:
      return threshold.kind == ThresholdKind::ketones;
    case FactKind::count:
      return threshold.kind == ThresholdKind::count;
    case FactKind::time_since:
      return threshold.kind == ThresholdKind::time;
    case FactKind::age:
      return threshold.kind == ThresholdKind::age;
    case FactKind::weight:
      return threshold.kind == ThresholdKind::weight;
    case FactKind::insulin:
      return threshold.kind == ThresholdKind::insulin;
    case FactKind::choice:
    case FactKind::ordered_choice:
      return false;
  }
  return false;
}

// Each border is a value of its own, so that "below" and "at most" come apart.
void add_numbers(Axis& axis, std::vector<Border> borders, std::int64_t grain, std::int64_t end, bool& other_in_mmol) {
  std::sort(borders.begin(), borders.end(), [](const Border& a, const Border& b) { return a.in[0] < b.in[0]; });
  for (std::size_t i = 1; i < borders.size(); ++i) {
    if (borders[i - 1].in[0] == borders[i].in[0] || borders[i - 1].in[1] >= borders[i].in[1]) other_in_mmol = true;
  }
  const auto add = [&](AxisValue::Kind kind, std::int64_t mg, std::int64_t mmol) {
    axis.values.push_back(AxisValue{kind, {{mg, false}, {mmol, false}}});
  };
  if (borders.empty()) return add(AxisValue::Kind::number, grain, grain);
  if (borders.front().in[0] > 0) {
    add(AxisValue::Kind::number, borders.front().in[0] - grain, borders.front().in[1] - grain);
  }
  for (std::size_t i = 0; i < borders.size(); ++i) {
    if (i > 0 && borders[i - 1].in[0] == borders[i].in[0]) continue;
    add(AxisValue::Kind::border, borders[i].in[0], borders[i].in[1]);
    const std::int64_t next = i + 1 < borders.size() ? borders[i + 1].in[0] : end;
    if (borders[i].in[0] + grain < next) {
      add(AxisValue::Kind::number, borders[i].in[0] + grain, borders[i].in[1] + grain);
    }
  }
}

}  // namespace

Axis axis_of(const Protocol& protocol, const Subject& subject, const std::vector<ThresholdId>& limits,
             bool& other_in_mmol) {
  Axis axis{subject, {}};
  const Fact* fact = fact_of(protocol, subject);
  if ((fact != nullptr && !fact->options.empty()) || subject.kind == Subject::Kind::done ||
      subject.kind == Subject::Kind::change) {
    const std::size_t count = subject.kind == Subject::Kind::done     ? 2
                              : subject.kind == Subject::Kind::change ? words::kChanges.size()
                                                                      : fact->options.size();
    for (std::size_t i = 0; i < count; ++i) {
      axis.values.push_back(both(AxisValue::Kind::option, static_cast<std::int64_t>(i)));
    }
  } else {
    std::vector<Border> borders;
    for (const ThresholdId id : limits) {
      for (const Band& band : protocol[id].bands) {
        if (is_border_of(protocol, subject, protocol[id])) {
          add_border(borders, Border{{number_of(band.value, GlucoseUnit::mg_per_dl),
                                      number_of(band.value, GlucoseUnit::mmol_per_l)}});
        }
        add_band_edges(borders, subject, band);
      }
    }
    const bool has_marks = fact != nullptr && (fact->kind == FactKind::glucose || fact->kind == FactKind::ketones);
    if (has_marks && fact->kind == FactKind::glucose) axis.values.push_back(both(AxisValue::Kind::lo, kMeterLo));
    const std::int64_t end = subject.kind == Subject::Kind::clock ? kDayInMinutes : kMeterHi;
    add_numbers(axis, std::move(borders), is_decimal(fact) ? kThousandth : 1, end, other_in_mmol);
    if (has_marks) axis.values.push_back(both(AxisValue::Kind::hi, kMeterHi));
  }
  if (fact != nullptr && may_be_unknown(*fact)) axis.values.push_back(both(AxisValue::Kind::cant_tell, 0, true));
  return axis;
}

}  // namespace rushlight
