#include "verify/in_words.hpp"

#include <algorithm>

#include "episode/words.hpp"
#include "finding/quoted.hpp"
#include "protocol/words.hpp"

namespace rushlight {
namespace {

constexpr const char* kCantTell = "can't tell";

// A threshold with bands has no one value.
std::string value_of(const Threshold& threshold) {
  if (threshold.bands.size() != 1) return quoted(threshold.name);
  const Limit& limit = threshold.bands.front().value;
  std::string text = text_from_limit(limit, GlucoseUnit::mg_per_dl);
  if (std::holds_alternative<GlucoseLimit>(limit)) text += " or " + text_from_limit(limit, GlucoseUnit::mmol_per_l);
  return text + " (" + quoted(threshold.name) + ")";
}

std::string joined(const std::vector<std::string>& words, const char* last) {
  std::string text;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) text += i + 1 == words.size() ? last : ", ";
    text += words[i];
  }
  return text;
}

struct Spoken {
  const Protocol& protocol;

  std::string operator()(const Compares& test) const {
    const std::string_view comparison = words::kComparisons[static_cast<std::size_t>(test.comparison)];
    std::string word(comparison);
    if (test.comparison == Comparison::at_least) word = "at least";
    if (test.comparison == Comparison::at_most) word = "at most";
    return protocol[test.fact].name + " " + word + " " + value_of(protocol[test.limit]);
  }
  std::string operator()(const Is& test) const {
    const Fact& fact = protocol[test.fact];
    std::vector<std::string> options;
    for (std::size_t i = 0; i < fact.options.size(); ++i) {
      if ((test.options >> i & 1U) != 0) options.push_back(fact.options[i].name);
    }
    if ((test.options & kUnknownBit) != 0) options.emplace_back(kCantTell);
    return fact.name + ": " + joined(options, " or ");
  }
  std::string operator()(const CountedAtLeast& test) const {
    return quoted(protocol[test.counter].name) + " counted at least " + value_of(protocol[test.limit]);
  }
  std::string operator()(const WasGiven& test) const { return quoted(protocol[test.action].name) + " given before"; }
  std::string operator()(const WithinClock& test) const {
    return "between " + value_of(protocol[test.from]) + " and " + value_of(protocol[test.up_to]);
  }
  std::string operator()(const HasChanged& test) const {
    std::vector<std::string> changes;
    for (std::size_t i = 0; i < words::kChanges.size(); ++i) {
      if ((test.changes >> i & 1U) != 0) changes.emplace_back(words::kChanges[i]);
    }
    const Mark& mark = protocol[test.mark];
    return protocol[mark.fact].name + " since " + quoted(mark.name) + ": " + joined(changes, " or ");
  }
};

struct Written {
  const Fact& fact;
  std::string operator()(CantTell) const { return std::string(": ") + kCantTell; }
  std::string operator()(Chosen chosen) const { return ": " + fact.options[chosen.option].name; }
  std::string operator()(Count count) const { return " " + std::to_string(count.number); }
  std::string operator()(const Glucose& glucose) const { return " " + text_from_glucose(glucose); }
  std::string operator()(const KetoneReading& ketones) const { return " " + text_from_ketones(ketones); }
  std::string operator()(Ago ago) const { return " " + text_from_duration(ago.time) + " ago"; }
  std::string operator()(NotLately) const { return ": not in the last day"; }
  std::string operator()(Age age) const { return " " + text_from_age(age); }
  std::string operator()(BodyWeight weight) const { return " " + text_from_quantity(weight.quantity()); }
  std::string operator()(InsulinDose dose) const { return " " + text_from_quantity(dose.quantity()); }
};

struct Happened {
  const Protocol& protocol;

  std::string answers(const Answers& told) const {
    std::vector<std::string> lines;
    for (const auto& [fact, value] : told) lines.push_back(in_words(protocol, fact, value));
    return joined(lines, ", ");
  }
  std::string operator()(const Ticked&) const { return "time passes"; }
  std::string operator()(const Answered& told) const { return answers(told.answers); }
  std::string operator()(const GotWorse& told) const {
    return "something got worse" + (told.answers.empty() ? "" : ": " + answers(told.answers));
  }
  std::string operator()(const Corrected& told) const { return "mistyped, it was " + answers(told.answers); }
  std::string operator()(const Done& done) const {
    std::vector<std::string> lines;
    for (const Deed& deed : done.deeds) {
      std::string line = quoted(protocol[deed.action].name);
      if (deed.outcome == Outcome::given) {
        line += " done";
      } else {
        line += " " + std::string(name_of(deed.outcome));
      }
      if (deed.amount) line += " (" + text_from_quantity(*deed.amount) + ")";
      lines.push_back(std::move(line));
    }
    return joined(lines, ", ");
  }
  std::string operator()(const AllDone&) const { return "all done"; }
  std::string operator()(const Called& called) const {
    return "call to " + std::string(name_of(called.contact)) + ": " + std::string(name_of(called.outcome));
  }
  std::string operator()(const LanguageChanged&) const { return "the language is changed"; }
  std::string operator()(const TakenOver&) const { return "somebody takes over"; }
  std::string operator()(const Abandoned&) const { return "the episode is given up"; }
  std::string operator()(const Remembered&) const { return "what the journal knows of earlier nights"; }
};

}  // namespace

std::string in_words(const Protocol& protocol, const Condition& condition) {
  return std::visit(Spoken{protocol}, condition.test);
}

std::string in_words(const Protocol& protocol, const Conditions& conditions) {
  if (conditions.empty()) return "always";
  std::string text;
  for (const Condition& condition : conditions) text += (text.empty() ? "" : ", and ") + in_words(protocol, condition);
  return text;
}

std::string in_one_order(const Protocol& protocol, const Conditions& conditions) {
  std::vector<std::string> all;
  for (const Condition& each : conditions) all.push_back(in_words(protocol, each));
  std::sort(all.begin(), all.end());
  return joined(all, ", ");
}

std::string in_words(const Protocol& protocol, FactId fact, const Value& value) {
  return protocol[fact].name + std::visit(Written{protocol[fact]}, value);
}

std::string in_words(const Protocol& protocol, const Event& event) {
  return std::visit(Happened{protocol}, event.what);
}

namespace {

template <class OfThreshold>
std::string with_blanks(const Protocol& protocol, const Template& line, OfThreshold of_threshold) {
  std::string words;
  for (const Piece& piece : line) {
    if (const auto* plain = std::get_if<std::string>(&piece)) words += *plain;
    if (const auto* threshold = std::get_if<ThresholdId>(&piece)) words += of_threshold(*threshold);
    if (const auto* dose = std::get_if<DoseId>(&piece)) words += "{" + protocol[*dose].name + "}";
    if (const auto* filler = std::get_if<Filler>(&piece)) {
      words += "{" + std::string(words::kFillers[static_cast<std::size_t>(*filler)]) + "}";
    }
  }
  return words;
}

}  // namespace

std::string as_written(const Protocol& protocol, const Text& text, Language language) {
  return with_blanks(protocol, text.in(language), [&](ThresholdId id) { return value_words(protocol, id); });
}

std::string text_by_names(const Protocol& protocol, const Template& line) {
  return with_blanks(protocol, line, [&](ThresholdId id) { return "{" + protocol[id].name + "}"; });
}

std::string value_words(const Protocol& protocol, ThresholdId id) {
  const Threshold& threshold = protocol[id];
  const auto value = [&](const Limit& limit) {
    const std::string text = said(limit, GlucoseUnit::mg_per_dl, Language::en);
    if (!std::holds_alternative<GlucoseLimit>(limit)) return text;
    return text + " = " + said(limit, GlucoseUnit::mmol_per_l, Language::en);
  };
  const auto age = [](Age each) { return said(Limit{each}, GlucoseUnit::mg_per_dl, Language::en); };
  if (threshold.bands.size() == 1) return value(threshold.bands.front().value);
  std::string words;
  for (const Band& band : threshold.bands) {
    words += (words.empty() ? "" : "; ") + value(band.value);
    if (band.age_from) words += " from " + age(*band.age_from);
    if (band.age_up_to) words += " below " + age(*band.age_up_to);
    if (band.weight_from) words += " from " + text_from_quantity(band.weight_from->quantity());
    if (band.weight_up_to) words += " below " + text_from_quantity(band.weight_up_to->quantity());
    if (band.clock_from) words += " from " + text_from_clock_time(*band.clock_from);
    if (band.clock_up_to) words += " until " + text_from_clock_time(*band.clock_up_to);
  }
  return words;
}

}  // namespace rushlight
