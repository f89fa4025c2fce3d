#include "bench/rule_set.hpp"

#include <random>
#include <string>

#include "episode/fold.hpp"
#include "protocol/words.hpp"

namespace rushlight::bench {
namespace {

Where nowhere() { return Where{"", 0, 0, 0}; }
FactId fact(FactPlace place) { return FactId{place}; }

/// Says rules shortly; every threshold stands once.
class Maker {
 public:
  Maker() {
    protocol_.set = "bench";
    protocol_.sources.push_back(Source{"timing", "", "", "", "", true, false, nowhere()});
    // No rule of the set reads a child-file fact; only their places count.
    for (const std::string_view name : words::kChildFacts) add_fact(std::string(name), FactKind::count, {}, true);
    add_fact("awake", FactKind::choice, {"yes", "confused", "no"}, false);
    add_fact("swallow", FactKind::choice, {"yes", "no"}, false);
    add_fact("seizure", FactKind::choice, {"yes", "no"}, false);
    add_fact("breathing", FactKind::choice, {"easy", "fast", "deep"}, false);
    add_fact("vomits", FactKind::count, {}, false);
    add_fact("drinking", FactKind::choice, {"yes", "no"}, false);
    add_fact("drowsy", FactKind::choice, {"yes", "no"}, false);
    add_fact("glucose", FactKind::glucose, {}, false);
    add_fact("ketones", FactKind::ketones, {}, false);
  }

  Condition is(FactPlace place, std::initializer_list<unsigned> options) const {
    std::uint64_t bits = 0;
    for (const unsigned option : options) bits |= std::uint64_t{1} << option;
    return Condition{Is{fact(place), bits}, nowhere()};
  }
  Condition unknown(FactPlace place) const { return Condition{Is{fact(place), kUnknownBit}, nowhere()}; }
  Condition is_or_unknown(FactPlace place, unsigned option) const {
    return Condition{Is{fact(place), kUnknownBit | std::uint64_t{1} << option}, nowhere()};
  }
  Condition compares(FactPlace place, Comparison comparison, int number) {
    return Condition{Compares{fact(place), comparison, threshold(place, number)}, nowhere()};
  }

  void step(std::string name, std::vector<Conditions> rules) {
    Step step{std::move(name), Urgency::home, {}, {}, {}, {}, {}, {}, {}, false, SourceId{0}, nowhere()};
    for (Conditions& when : rules) {
      step.rules.push_back(Rule{"", std::move(when), false, StepId{0}, {}, SourceId{0}, nowhere()});
    }
    protocol_.steps.push_back(std::move(step));
  }
  Protocol take() { return std::move(protocol_); }

 private:
  void add_fact(std::string name, FactKind kind, std::vector<std::string> options, bool from_child) {
    Fact fact{std::move(name), kind, false, from_child, {}, {}, {}, nowhere()};
    for (std::string& option : options) fact.options.push_back(Option{std::move(option), {}});
    protocol_.facts.push_back(std::move(fact));
  }
  ThresholdId threshold(FactPlace place, int number) {
    const std::string name = protocol_.facts[place].name + "-" + std::to_string(number);
    for (std::size_t i = 0; i < protocol_.thresholds.size(); ++i) {
      if (protocol_.thresholds[i].name == name) return ThresholdId{static_cast<std::uint16_t>(i)};
    }
    Limit limit = number;
    ThresholdKind kind = ThresholdKind::count;
    if (place == kGlucose) {
      const Decimal value = Decimal::whole(number);
      limit = GlucoseLimit{value, other_value(value, GlucoseUnit::mg_per_dl)};
      kind = ThresholdKind::glucose;
    } else if (place == kKetones) {
      limit = BloodKetones{Decimal::of_micros(number * 100'000), kMillimolePerLitre};
      kind = ThresholdKind::ketones;
    }
    protocol_.thresholds.push_back(
        Threshold{name, kind, {Band{{}, {}, {}, {}, {}, {}, limit, nowhere()}}, "", "", {}, {}, SourceId{0}, nowhere()});
    return ThresholdId{static_cast<std::uint16_t>(protocol_.thresholds.size() - 1)};
  }

  Protocol protocol_{};
};

}  // namespace

Protocol rule_set() {
  Maker m;
  const auto below = Comparison::below;
  const auto at_least = Comparison::at_least;
  m.step("danger", {
    {m.is_or_unknown(kAwake, 2)},
    {m.is(kSeizure, {0})},
    {m.is(kBreathing, {2})},
    {m.is_or_unknown(kSwallow, 1), m.compares(kGlucose, below, 70)},
    {m.is_or_unknown(kSwallow, 1), m.is(kDrowsy, {0})},
    {m.is(kAwake, {1}), m.compares(kGlucose, below, 54)},
    {m.is(kAwake, {1}), m.unknown(kGlucose)},
    {m.compares(kKetones, at_least, 30), m.compares(kVomits, at_least, 1)},
    {m.compares(kKetones, at_least, 30), m.is(kBreathing, {1})},
    {m.compares(kKetones, at_least, 30)},
    {m.compares(kVomits, at_least, 3), m.is(kDrinking, {1})},
    {m.compares(kVomits, at_least, 3), m.compares(kKetones, at_least, 15)},
    {m.compares(kVomits, at_least, 4)},
    {m.is(kBreathing, {1}), m.compares(kKetones, at_least, 15)},
    {m.is(kDrowsy, {0}), m.compares(kGlucose, at_least, 250)},
    {m.is(kDrowsy, {0}), m.compares(kGlucose, below, 70)},
    {m.compares(kKetones, at_least, 15), m.is(kDrinking, {1})},
    {m.compares(kGlucose, below, 54)},
    {m.is(kAwake, {1})},
    {m.compares(kGlucose, below, 70), m.compares(kVomits, at_least, 1)},
    {m.compares(kGlucose, below, 70)},
    {m.unknown(kKetones), m.compares(kGlucose, at_least, 250)},
    {m.unknown(kGlucose), m.is(kSeizure, {1})},
  });
  std::vector<Conditions> cells;
  constexpr int kGlucoseEdges[] = {70, 100, 180, 250};
  constexpr int kKetoneEdges[] = {6, 15, 30};
  for (std::size_t row = 0; row < 5; ++row) {
    for (std::size_t column = 0; column < 4; ++column) {
      Conditions cell;
      if (row > 0) cell.push_back(m.compares(kGlucose, at_least, kGlucoseEdges[row - 1]));
      if (row < 4) cell.push_back(m.compares(kGlucose, below, kGlucoseEdges[row]));
      if (column > 0) cell.push_back(m.compares(kKetones, at_least, kKetoneEdges[column - 1]));
      if (column < 3) cell.push_back(m.compares(kKetones, below, kKetoneEdges[column]));
      cells.push_back(std::move(cell));
    }
  }
  m.step("grid", std::move(cells));
  m.step("dose", {
    {m.compares(kGlucose, below, 54)},
    {m.compares(kGlucose, below, 70), m.is(kSwallow, {0})},
    {m.compares(kGlucose, at_least, 70)},
  });
  return m.take();
}

Child timing_child() {
  using namespace std::chrono_literals;
  Child child{};
  child.name = "Timing";
  child.birth = Day{2018y / 5 / 2};
  child.weight = BodyWeight{Decimal::whole(21), kKilogram};
  child.weighed = Day{2026y / 1 / 5};
  child.strips = Strips::blood;
  return child;
}

std::vector<PlainFacts> random_nights(std::size_t count) {
  std::mt19937 dice(20260301);  // the same nights in every run
  const auto pick = [&](int least, int most) {
    const int drawn = static_cast<int>(dice() % static_cast<unsigned>(most - least + 1));
    return dice() % 12 == 0 ? -1 : least + drawn;
  };
  std::vector<PlainFacts> nights;
  for (std::size_t i = 0; i < count; ++i) {
    PlainFacts facts{};
    facts.awake = pick(0, 2);
    facts.swallow = pick(0, 1);
    facts.seizure = pick(0, 1);
    facts.breathing = pick(0, 2);
    facts.vomits = pick(0, 5);
    facts.drinking = pick(0, 1);
    facts.drowsy = pick(0, 1);
    facts.glucose = pick(30, 400);
    facts.tenths_ketones = pick(0, 60);
    nights.push_back(facts);
  }
  return nights;
}

Episode episode_of(const Protocol& protocol, const Child& child, const PlainFacts& facts) {
  const Moment now = *moment_from_text("2026-03-01T02:10:00-05:00");
  Episode episode{};
  episode.began = now;
  episode.clock.last_wall = now.utc;
  episode.clock.offset = now.offset;
  episode.language = child.language;
  episode.facts.resize(protocol.facts.size());
  const auto put = [&](FactPlace place, int number, Value value) {
    episode.facts[place] = Known{number < 0 ? Value{CantTell{}} : value, now.utc, 1, false};
  };
  const auto choose = [&](FactPlace place, int option) { put(place, option, Chosen{static_cast<std::uint16_t>(option)}); };
  choose(kAwake, facts.awake);
  choose(kSwallow, facts.swallow);
  choose(kSeizure, facts.seizure);
  choose(kBreathing, facts.breathing);
  put(kVomits, facts.vomits, Count{facts.vomits});
  choose(kDrinking, facts.drinking);
  choose(kDrowsy, facts.drowsy);
  put(kGlucose, facts.glucose, Glucose::reading(Decimal::whole(facts.glucose), GlucoseUnit::mg_per_dl));
  const BloodKetones ketones{Decimal::of_micros(facts.tenths_ketones * 100'000), kMillimolePerLitre};
  put(kKetones, facts.tenths_ketones, KetoneReading::reading(ketones));
  return episode;
}

}  // namespace rushlight::bench
