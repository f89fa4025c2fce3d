#include "tests/verify/grown_tables.hpp"

#include <algorithm>
#include <map>
#include <random>

#include "protocol/words.hpp"

namespace rushlight::tests {

namespace {

Where nowhere() { return Where{"", 0, 0, 0}; }
constexpr int kMost = 1000;  // of the numbers: 0 to 999
constexpr unsigned kOptions = 5;

struct Between {
  int from, up_to;  // up to but not including
};
using Room = std::vector<Between>;

class Grower {
 public:
  explicit Grower(const Growth& growth) : growth_(growth), random_(growth.seed) {
    protocol_.set = "grown";
    protocol_.sources.push_back(Source{"timing", "", "", "", "", true, false, nowhere()});
    for (const std::string_view name : words::kChildFacts) add_fact(std::string(name), FactKind::count, true);
    step_.name = "grown";
    step_.where = nowhere();
  }

  std::size_t below(std::size_t end) { return random_() % end; }

  void add_numbers() {
    for (std::size_t i = 0; i < growth_.facts; ++i) ask(FactKind::count);
  }
  void add_numbers_and_choices() {
    for (std::size_t i = 0; i < growth_.facts; ++i) ask(i % 2 == 0 ? FactKind::count : FactKind::choice);
  }
  // What nobody can tell is taken first.
  void take_unknowns() {
    for (const Ask& ask : step_.asks) rule({Condition{Is{ask.fact, kUnknownBit}, nowhere()}});
  }

  Conditions inside(const Room& room) {
    Conditions when;
    for (std::size_t i = 0; i < room.size(); ++i) {
      if (room[i].from > 0) when.push_back(compares(i, Comparison::at_least, room[i].from));
      if (room[i].up_to < kMost) when.push_back(compares(i, Comparison::below, room[i].up_to));
    }
    return when;
  }
  Condition compares(std::size_t fact, Comparison comparison, int number) {
    return Condition{Compares{step_.asks[fact].fact, comparison, threshold(number)}, nowhere()};
  }
  Condition is_one_of(std::size_t fact, std::uint64_t options) {
    return Condition{Is{step_.asks[fact].fact, options}, nowhere()};
  }
  bool is_number(std::size_t fact) const { return protocol_[step_.asks[fact].fact].options.empty(); }

  void rule(Conditions when, bool otherwise = false) {
    step_.rules.push_back(Rule{"", std::move(when), otherwise, StepId{0}, {}, SourceId{0}, nowhere()});
  }

  /// With the hole and the repeated rule, among those from the first that may be left out.
  Protocol grown(std::size_t first) {
    std::vector<Rule>& rules = step_.rules;
    const auto pick = [&] { return rules.begin() + static_cast<std::ptrdiff_t>(first + below(rules.size() - first)); };
    if (growth_.hole) rules.erase(pick());
    if (growth_.repeated) rules.push_back(*pick());
    protocol_.steps.push_back(std::move(step_));
    return std::move(protocol_);
  }

 private:
  FactId add_fact(std::string name, FactKind kind, bool from_child) {
    Fact fact{std::move(name), kind, false, from_child, {}, {}, {}, nowhere()};
    for (unsigned i = 0; kind == FactKind::choice && i < kOptions; ++i)
      fact.options.push_back(Option{"option-" + std::to_string(i), {}});
    protocol_.facts.push_back(std::move(fact));
    return FactId{static_cast<std::uint16_t>(protocol_.facts.size() - 1)};
  }
  void ask(FactKind kind) {
    const FactId fact = add_fact("fact-" + std::to_string(step_.asks.size()), kind, false);
    step_.asks.push_back(Ask{fact, std::nullopt, nowhere()});
  }
  ThresholdId threshold(int number) {
    const auto [at, added] =
        thresholds_.try_emplace(number, ThresholdId{static_cast<std::uint16_t>(thresholds_.size())});
    if (added) {
      protocol_.thresholds.push_back(Threshold{"at-" + std::to_string(number),
                                               ThresholdKind::count,
                                               {Band{{}, {}, {}, {}, {}, {}, number, nowhere()}},
                                               "",
                                               "",
                                               {},
                                               {},
                                               SourceId{0},
                                               nowhere()});
    }
    return at->second;
  }

  Growth growth_;
  std::mt19937 random_;
  Protocol protocol_{};
  Step step_{};
  std::map<int, ThresholdId> thresholds_;
};

}  // namespace

Protocol nearly_disjoint_table(const Growth& growth) {
  Grower grower(growth);
  grower.add_numbers();
  grower.take_unknowns();
  std::vector<Room> rooms{Room(growth.facts, Between{0, kMost})};
  while (rooms.size() < growth.rules) {
    // The largest of three, so that none becomes a sliver.
    const auto size = [](const Room& room) {
      double all = 1;
      for (const Between& side : room) all *= side.up_to - side.from;
      return all;
    };
    std::size_t largest = grower.below(rooms.size());
    for (int i = 0; i < 2; ++i) {
      const std::size_t other = grower.below(rooms.size());
      if (size(rooms[other]) > size(rooms[largest])) largest = other;
    }
    const std::size_t side = grower.below(growth.facts);
    const Between cut = rooms[largest][side];
    if (cut.up_to - cut.from < 2) continue;
    const int middle =
        cut.from + 1 + static_cast<int>(grower.below(static_cast<std::size_t>(cut.up_to - cut.from - 1)));
    rooms.push_back(rooms[largest]);
    rooms[largest][side].up_to = middle;
    rooms.back()[side].from = middle;
  }
  for (const Room& room : rooms) grower.rule(grower.inside(room));
  return grower.grown(growth.facts);
}

Protocol wide_table(const Growth& growth) {
  Grower grower(growth);
  grower.add_numbers();
  grower.take_unknowns();
  for (std::size_t i = 0; i < growth.rules; ++i) {
    Room room;
    for (std::size_t k = 0; k < growth.facts; ++k) {
      const int width = kMost * 2 / 5 + static_cast<int>(grower.below(kMost / 2));
      const int from = static_cast<int>(grower.below(kMost)) - width / 2;
      room.push_back({std::max(0, from), std::min(kMost, from + width)});
    }
    grower.rule(grower.inside(room));
  }
  return grower.grown(growth.facts);
}

Protocol clinic_table(const Growth& growth) {
  Grower grower(growth);
  grower.add_numbers_and_choices();
  grower.take_unknowns();
  for (std::size_t i = 0; i < growth.rules; ++i) {
    Conditions when;
    std::vector<std::size_t> unread;
    for (std::size_t fact = 0; fact < growth.facts; ++fact) unread.push_back(fact);
    double share = 1;  // of all cases
    while (!unread.empty() && share > 4.0 / static_cast<double>(growth.rules)) {
      const auto pick = unread.begin() + static_cast<std::ptrdiff_t>(grower.below(unread.size()));
      const std::size_t fact = *pick;
      unread.erase(pick);
      if (grower.is_number(fact)) {
        const int width = 100 + static_cast<int>(grower.below(300));
        const int from = static_cast<int>(grower.below(static_cast<std::size_t>(kMost - width)));
        when.push_back(grower.compares(fact, Comparison::at_least, from));
        when.push_back(grower.compares(fact, Comparison::below, from + width));
        share *= static_cast<double>(width) / kMost;
      } else {
        const std::size_t first = grower.below(kOptions), second = grower.below(kOptions);
        when.push_back(grower.is_one_of(fact, std::uint64_t{1} << first | std::uint64_t{1} << second));
        share *= (first == second ? 1.0 : 2.0) / kOptions;
      }
    }
    grower.rule(std::move(when));
  }
  if (!growth.hole) grower.rule({}, true);
  return grower.grown(growth.facts);
}

}  // namespace rushlight::tests
