#include "protocol/words.hpp"
#include "verify/regions.hpp"

namespace rushlight {

namespace {

std::string number_text(const Fact& fact, std::int64_t value, GlucoseUnit unit) {
  const auto in = [&](Unit of) { return text_from_quantity(Quantity{Decimal::of_micros(value), of}); };
  switch (fact.kind) {
    case FactKind::glucose:
      return value == kMeterLo ? "LO" : in(unit_of(unit));
    case FactKind::ketones:
      return in(Unit::mmol_per_l);
    case FactKind::weight:
      return in(Unit::kilogram);
    case FactKind::insulin:
      return in(Unit::insulin_unit);
    case FactKind::time_since:
      return text_from_duration(Duration{value});
    case FactKind::age:
      return text_from_age(Age::of_months(static_cast<int>(value)));
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

}  // namespace

std::string example_of(const Protocol& protocol, const Table& table, const Box& box) {
  std::string text;
  for (std::size_t i = 0; i < table.dimensions.size(); ++i) {
    const Dimension& dimension = table.dimensions[i];
    if (box.sides[i] == table.whole.sides[i] && !dimension.splits_bands) continue;
    for (std::size_t bit = 0; bit < dimension.stretches.size(); ++bit) {
      if (!box.sides[i].test(bit)) continue;
      text += (text.empty() ? "" : ", ") + words_of(protocol, table, dimension, dimension.stretches[bit]);
      break;
    }
  }
  return text.empty() ? "any answer" : text;
}

}  // namespace rushlight
