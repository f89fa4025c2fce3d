#include <algorithm>

#include "finding/quoted.hpp"
#include "measure/amounts.hpp"
#include "measure/duration_words.hpp"
#include "protocol/words.hpp"
#include "verify/cases.hpp"

namespace rushlight {
namespace {

constexpr std::int64_t kOne = Decimal::kMicrosPerOne;
constexpr std::int64_t kTenth = kOne / 10;

// How a number is said, and the steps in which people say it; 0 where every number may come.
struct Saying {
  std::int64_t step;
  const char* unit;  // behind a range, once; empty: each number has its own
};

Saying saying_of(const Protocol& protocol, const Subject& subject, GlucoseUnit unit) {
  if (subject.kind != Subject::Kind::fact) return {1, ""};
  switch (protocol.facts[subject.index].kind) {
    case FactKind::glucose:
      return unit == GlucoseUnit::mg_per_dl ? Saying{kOne, " mg/dL"} : Saying{kTenth, " mmol/L"};
    case FactKind::ketones:
      return {kTenth, " mmol/L"};
    case FactKind::weight:
      return {0, " kg"};
    case FactKind::insulin:
      return {0, " units a day"};
    case FactKind::time_since:
    case FactKind::age:
      return {0, ""};
    case FactKind::choice:
    case FactKind::ordered_choice:
    case FactKind::count:
      break;
  }
  return {1, ""};
}

constexpr std::int64_t kMonthsPerYear = 12;

// The codes of a file, `a` and `mo`, are no words.
std::string age_words(std::int64_t months) {
  const bool years = months % kMonthsPerYear == 0;
  const std::int64_t count = years ? months / kMonthsPerYear : months;
  return std::to_string(count) + (years ? " year" : " month") + (count == 1 ? "" : "s");
}

std::string number(const Protocol& protocol, const Subject& subject, std::int64_t value, GlucoseUnit unit) {
  if (subject.kind == Subject::Kind::clock) return text_from_clock_time(ClockTime::of_minutes(static_cast<int>(value)));
  if (subject.kind != Subject::Kind::fact) return std::to_string(value);
  const Decimal decimal = Decimal::of_micros(value);
  switch (protocol.facts[subject.index].kind) {
    case FactKind::glucose: {
      const std::string text = text_from_quantity(Quantity{decimal, unit_of(unit)});
      return text.substr(0, text.find(' '));
    }
    case FactKind::ketones: {
      const std::string text = text_from_quantity(Quantity{decimal, Unit::mmol_per_l});
      return text.substr(0, text.find(' '));
    }
    case FactKind::weight:
    case FactKind::insulin:
      return text_from_decimal(decimal);
    case FactKind::time_since:
      return text_from_duration(Duration{value});
    case FactKind::age:
      return age_words(value);
    case FactKind::choice:
    case FactKind::ordered_choice:
    case FactKind::count:
      break;
  }
  return std::to_string(value);
}

struct IntervalWords {
  const Protocol& protocol;
  const Subject& subject;
  GlucoseUnit unit;

  std::string operator()(const Interval& interval) const {
    const Saying saying = saying_of(protocol, subject, unit);
    const auto say = [&](std::int64_t value) { return number(protocol, subject, value, unit); };
    std::optional<std::int64_t> least = interval.from, most = interval.up_to;
    bool above = least && !interval.with_from, below = most && !interval.with_up_to;
    if (saying.step > 0 && least && most) {
      // Between two borders only what a meter or a person says counts: "65 to 69", not "65 up to 70".
      const std::int64_t first = above ? (*least / saying.step + 1) * saying.step : *least;
      const std::int64_t last = below ? (*most + saying.step - 1) / saying.step * saying.step - saying.step : *most;
      if (first <= last) {
        least = first, most = last;
        above = below = false;
      }
    }
    const bool age = subject.kind == Subject::Kind::fact && protocol.facts[subject.index].kind == FactKind::age;
    if (age && most && !below && least != most) {
      // Up to 71 months is below 6 years; and nobody is younger than 0.
      most = *most + 1;
      below = true;
      if (least == std::int64_t{0} && !above) least.reset();
    }
    if (!least && !most) return "any number";
    if (!least) return (below ? "below " : "up to ") + say(*most) + saying.unit;
    if (!most) return above ? "above " + say(*least) + saying.unit : say(*least) + saying.unit + " or more";
    if (*least == *most) return say(*least) + saying.unit;
    if (above) return "above " + say(*least) + (below ? " and below " : " up to ") + say(*most) + saying.unit;
    return say(*least) + (below ? " to below " : " to ") + say(*most) + saying.unit;
  }
};

std::string joined(const std::vector<std::string>& words) {
  std::string text;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) text += i + 1 == words.size() ? " or " : ", ";
    text += words[i];
  }
  return text;
}

std::string option_words(const Protocol& protocol, const Subject& subject, std::uint16_t option) {
  if (subject.kind == Subject::Kind::change)
    return option == 3 ? "changed in a way nobody knows" : std::string(words::kChanges[option]);
  return protocol.facts[subject.index].options[option].name;
}

}  // namespace

std::string value_words(const Protocol& protocol, const CaseLimit& limit, GlucoseUnit unit) {
  std::vector<std::string> words;
  for (const Interval& interval : limit.intervals)
    words.push_back(IntervalWords{protocol, limit.subject, unit}(interval));
  if (limit.subject.kind == Subject::Kind::done) return limit.options.front() == 1 ? "given" : "not given";
  for (const std::uint16_t option : limit.options) words.push_back(option_words(protocol, limit.subject, option));
  if (limit.cant_tell) words.emplace_back("can't tell");
  return joined(words);
}

std::string in_words(const Protocol& protocol, const CaseLimit& limit, GlucoseUnit unit) {
  const std::string value = value_words(protocol, limit, unit);
  const std::uint16_t index = limit.subject.index;
  switch (limit.subject.kind) {
    case Subject::Kind::counter:
      return quoted(protocol.counters[index].name) + " counted " + value;
    case Subject::Kind::done:
      return quoted(protocol.actions[index].name) + " " + value + " before";
    case Subject::Kind::change:
      return protocol.facts[protocol.marks[index].fact.index].name + " " + value + " since " +
             quoted(protocol.marks[index].name);
    case Subject::Kind::clock:
      return "clock " + value;
    case Subject::Kind::fact:
      break;
  }
  const Fact& fact = protocol.facts[index];
  const bool words = !limit.options.empty() || (limit.cant_tell && limit.intervals.empty());
  return fact.name + (words ? ": " : " ") + value;
}

}  // namespace rushlight
