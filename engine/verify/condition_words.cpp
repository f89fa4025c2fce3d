#include "verify/condition_words.hpp"

#include <algorithm>
#include <string_view>
#include <vector>

#include "finding/quoted.hpp"
#include "protocol/words.hpp"

namespace rushlight {

namespace {

std::string_view compared_in_words(Comparison comparison) {
  switch (comparison) {
    case Comparison::below:
      return "below";
    case Comparison::at_least:
      return "at least";
    case Comparison::above:
      return "above";
    case Comparison::at_most:
      break;
  }
  return "at most";
}

struct InWords {
  const Protocol& protocol;

  std::string operator()(const Compares& test) const {
    return quoted(protocol[test.fact].name) + " is " + std::string(compared_in_words(test.comparison)) + " " +
           quoted(protocol[test.limit].name);
  }
  std::string operator()(const Is& test) const {
    const Fact& fact = protocol[test.fact];
    std::string all;
    for (std::size_t i = 0; i < fact.options.size(); ++i) {
      if ((test.options >> i & 1U) != 0) all += (all.empty() ? "" : " ") + fact.options[i].name;
    }
    if ((test.options & kUnknownBit) != 0) all += all.empty() ? "unknown" : " unknown";
    return quoted(fact.name) + " is " + quoted(all);
  }
  std::string operator()(const CountedAtLeast& test) const {
    return quoted(protocol[test.counter].name) + " has come to " + quoted(protocol[test.limit].name);
  }
  std::string operator()(const WasGiven& test) const { return quoted(protocol[test.action].name) + " was given"; }
  std::string operator()(const WithinClock& test) const {
    return "it is between " + quoted(protocol[test.from].name) + " and " + quoted(protocol[test.up_to].name);
  }
  std::string operator()(const HasChanged& test) const {
    constexpr std::string_view kChanges[] = {"fallen", "stayed", "risen", "unknown"};
    std::string all;
    for (std::size_t i = 0; i < std::size(kChanges); ++i) {
      if ((test.changes >> i & 1U) != 0) all += (all.empty() ? "" : " ") + std::string(kChanges[i]);
    }
    return "what " + quoted(protocol[test.mark].name) + " marks is " + quoted(all);
  }
};

}  // namespace

std::string condition_in_words(const Protocol& protocol, const Condition& condition) {
  return std::visit(InWords{protocol}, condition.test);
}

std::string conditions_in_words(const Protocol& protocol, const Conditions& conditions) {
  std::vector<std::string> all;
  for (const Condition& each : conditions) all.push_back(condition_in_words(protocol, each));
  std::sort(all.begin(), all.end());
  std::string words;
  for (const std::string& each : all) words += (words.empty() ? "" : ", ") + each;
  return words;
}

std::string text_by_names(const Protocol& protocol, const Template& line) {
  std::string all;
  for (const Piece& piece : line) {
    if (const auto* words = std::get_if<std::string>(&piece)) all += *words;
    if (const auto* limit = std::get_if<ThresholdId>(&piece)) all += "{" + protocol[*limit].name + "}";
    if (const auto* dose = std::get_if<DoseId>(&piece)) all += "{" + protocol[*dose].name + "}";
    if (const auto* filler = std::get_if<Filler>(&piece))
      all += "{" + std::string(words::kFillers[static_cast<std::size_t>(*filler)]) + "}";
  }
  return all;
}

}  // namespace rushlight
