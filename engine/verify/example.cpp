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
  const auto in = [&](Unit of) { return text_from_quantity(Quantity{Decimal::of_micros(value), of}); };
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

}  // namespace

std::string example_of(const Protocol& protocol, const Table& table, const Box& box) {
  // Who the child is comes first, as a nurse would say it.
  std::string child, rest;
  for (std::size_t i = 0; i < table.dimensions.size(); ++i) {
    const Dimension& dimension = table.dimensions[i];
    if (box.sides[i] == table.whole.sides[i] && !dimension.splits_bands) continue;
    const Subject& subject = dimension.subject;
    std::string& text = subject.kind == Subject::Kind::fact && protocol.facts[subject.index].from_child ? child : rest;
    for (std::size_t bit = 0; bit < dimension.stretches.size(); ++bit) {
      if (!box.sides[i].test(bit)) continue;
      text += (text.empty() ? "" : ", ") + words_of(protocol, table, dimension, dimension.stretches[bit]);
      break;
    }
  }
  if (child.empty() && rest.empty()) return "any answer";
  return child + (child.empty() || rest.empty() ? "" : ", ") + rest;
}

}  // namespace rushlight
