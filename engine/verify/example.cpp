#include "episode/words.hpp"
#include "protocol/words.hpp"
#include "verify/regions.hpp"

namespace rushlight {

namespace {

std::string count_of(int number, const char* what) {
  return std::to_string(number) + " " + what + (number == 1 ? "" : "s");
}

// "4 years", "2 years 6 months": a nurse does not count 30 months.
std::string age_text(Age age) {
  const int years = age.completed_years(), months = age.months() % 12;
  if (age.months() == 0) return "under 1 month";
  if (months == 0) return count_of(years, "year");
  return (years == 0 ? "" : count_of(years, "year") + " ") + count_of(months, "month");
}

std::string number_text(const Fact& fact, std::int64_t value, GlucoseUnit unit) {
  const auto in = [&](Unit of) { return said(Quantity{Decimal::of_micros(value), of}, Language::en); };
  switch (fact.kind) {
    case FactKind::glucose:
      return value == kMeterLo ? "LO" : value == kMeterHi ? "HI" : in(unit_of(unit));
    case FactKind::ketones:
      return value == kMeterHi ? "HI" : in(Unit::mmol_per_l);
    case FactKind::weight:
      return in(Unit::kilogram);
    case FactKind::insulin:
      return in(Unit::insulin_unit);
    case FactKind::time_since:
      return text_from_duration(Duration{value});
    case FactKind::age:
      return age_text(Age::of_months(static_cast<int>(value)));
    case FactKind::choice:
    case FactKind::ordered_choice:
    case FactKind::count:
      break;
  }
  return std::to_string(value);
}

std::string words_of(const Protocol& protocol, const Table& table, const Dimension& dimension, const Stretch& stretch) {
  const std::uint16_t index = dimension.subject.index;
  switch (dimension.subject.kind) {
    case Subject::Kind::counter:
      return "counter " + protocol.counters[index].name + " at " + std::to_string(stretch.value);
    case Subject::Kind::done:
      return protocol.actions[index].name + (stretch.value == 1 ? " given" : " not given");
    case Subject::Kind::change:
      return protocol.facts[protocol.marks[index].fact.index].name + " has " +
             (stretch.value == 3 ? "changed in a way nobody knows"
                                 : std::string(words::kChanges[static_cast<std::size_t>(stretch.value)])) +
             " since " + protocol.marks[index].name;
    case Subject::Kind::clock:
      return "at " + text_from_clock_time(ClockTime::of_minutes(static_cast<int>(stretch.value)));
    case Subject::Kind::fact:
      break;
  }
  const Fact& fact = protocol.facts[index];
  if (stretch.unknown) return fact.name + ": can't tell";
  if (!fact.options.empty()) return fact.name + ": " + fact.options[static_cast<std::size_t>(stretch.value)].name;
  return fact.name + " " + number_text(fact, stretch.value, table.unit);
}

// A reading that a meter or a scale can show: LO and HI, whole mg/dL, tenths of mmol/L and of kilograms.
bool can_be_shown(const Protocol& protocol, const Table& table, const Subject& subject, const Stretch& stretch) {
  if (subject.kind != Subject::Kind::fact || stretch.unknown) return true;
  if (stretch.value == kMeterLo || stretch.value == kMeterHi) return true;
  constexpr std::int64_t kTenth = 100'000, kWhole = 1'000'000;
  switch (protocol.facts[subject.index].kind) {
    case FactKind::glucose:
      return stretch.value % (table.unit == GlucoseUnit::mg_per_dl ? kWhole : kTenth) == 0;
    case FactKind::ketones:
    case FactKind::weight:
      return stretch.value % kTenth == 0;
    default:
      return true;
  }
}

}  // namespace

std::size_t shown_bit(const Protocol& protocol, const Table& table, std::size_t dimension, const Stretches& side) {
  const std::vector<Stretch>& stretches = table.dimensions[dimension].stretches;
  std::size_t first = stretches.size();
  for (std::size_t bit = 0; bit < stretches.size(); ++bit) {
    if (!side.test(bit)) continue;
    if (can_be_shown(protocol, table, table.dimensions[dimension].subject, stretches[bit])) return bit;
    if (first == stretches.size()) first = bit;
  }
  return first;
}

std::optional<std::size_t> only_shown_bit(const Protocol& protocol, const Table& table, std::size_t dimension,
                                          const Stretches& side) {
  std::optional<std::size_t> only;
  for (std::size_t bit = 0; bit < table.dimensions[dimension].stretches.size(); ++bit) {
    const Stretch& stretch = table.dimensions[dimension].stretches[bit];
    if (!side.test(bit) || !can_be_shown(protocol, table, table.dimensions[dimension].subject, stretch)) continue;
    if (only) return std::nullopt;
    only = bit;
  }
  return only;
}

std::string value_text(const Protocol& protocol, const Table& table, std::size_t dimension, std::size_t bit) {
  const Dimension& of = table.dimensions[dimension];
  return words_of(protocol, table, of, of.stretches[bit]);
}

std::string example_of(const Protocol& protocol, const Table& table, const Box& box) {
  // Who the child is comes first, as a nurse would say it.
  std::string child, rest;
  for (std::size_t i = 0; i < table.dimensions.size(); ++i) {
    const Dimension& dimension = table.dimensions[i];
    if (box.sides[i] == table.whole.sides[i] && !dimension.splits_bands) continue;
    const Subject& subject = dimension.subject;
    std::string& text = subject.kind == Subject::Kind::fact && protocol.facts[subject.index].from_child ? child : rest;
    text += (text.empty() ? "" : ", ") + value_text(protocol, table, i, shown_bit(protocol, table, i, box.sides[i]));
  }
  if (child.empty() && rest.empty()) return "any answer";
  return child + (child.empty() || rest.empty() ? "" : ", ") + rest;
}

}  // namespace rushlight
