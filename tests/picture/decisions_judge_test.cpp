#include <algorithm>
#include <boost/test/data/monomorphic.hpp>
#include <boost/test/data/test_case.hpp>
#include <boost/test/unit_test.hpp>
#include <random>

#include "episode/scene.hpp"
#include "tests/picture/shipped.hpp"
#include "verify/decisions.hpp"

// The maps against the engine that walks at night: `watch_that_fires` and `first_match` on one family's answers at a
// time.

using namespace rushlight;
using namespace rushlight::tests;

namespace {

Value value_of(const Protocol& protocol, const Subject& subject, const AxisValue& value, GlucoseUnit unit) {
  const std::int64_t number = value.in[static_cast<std::size_t>(unit)].value;
  const FactKind kind = protocol.facts[subject.index].kind;
  if (value.kind == AxisValue::Kind::cant_tell) return CantTell{};
  if (value.kind == AxisValue::Kind::lo) return Glucose::lo(unit);
  if (value.kind == AxisValue::Kind::hi) {
    return kind == FactKind::glucose ? Value{Glucose::hi(unit)} : Value{KetoneReading::hi()};
  }
  const Decimal decimal = Decimal::of_micros(number);
  switch (kind) {
    case FactKind::glucose:
      return Glucose::reading(decimal, unit);
    case FactKind::ketones:
      return KetoneReading::reading(BloodKetones{decimal, kMillimolePerLitre});
    case FactKind::count:
      return Count{static_cast<int>(number)};
    case FactKind::time_since:
      return Ago{Duration{number}};
    case FactKind::age:
      return Age::of_months(static_cast<int>(number));
    case FactKind::weight:
      return BodyWeight{decimal, kKilogram};
    case FactKind::insulin:
      return InsulinDose{decimal, kInsulinUnit};
    case FactKind::choice:
    case FactKind::ordered_choice:
      break;
  }
  return Chosen{static_cast<std::uint16_t>(number)};
}

/// One family at one moment, and what the engine does.
class Family {
 public:
  explicit Family(const Protocol& protocol) : protocol_(protocol) {
    episode_.facts.resize(protocol.facts.size());
    episode_.counted.resize(protocol.counters.size());
    episode_.marks.resize(protocol.marks.size());
  }

  /// False when the engine's own memory would be needed: a deed or a change is not told by an answer.
  bool says(const Subject& subject, const AxisValue& value, GlucoseUnit unit) {
    const std::int64_t number = value.in[0].value;
    switch (subject.kind) {
      case Subject::Kind::counter:
        episode_.counted[subject.index] = static_cast<int>(number);
        return true;
      case Subject::Kind::clock:
        clock_ = static_cast<int>(number);
        return true;
      case Subject::Kind::done:
        if (number == 1) {
          episode_.given.push_back(Given{ActionId{subject.index}, Outcome::given, std::nullopt, Instant{}});
        }
        return true;
      case Subject::Kind::change:
        return false;
      case Subject::Kind::fact:
        break;
    }
    if (value.kind == AxisValue::Kind::not_asked) return true;
    const Value told = value_of(protocol_, subject, value, unit);
    if (subject.index < kChildFacts) {
      child_facts_.emplace_back(subject.index, told);
    } else {
      episode_.facts[subject.index] = Known{told, Instant{}, 0};
    }
    return true;
  }

  Next goes_from(StepId id) {
    const Child child{};
    episode_.step = id;
    const std::vector<Ask>& asks = protocol_[id].asks;
    for (std::size_t i = 0; i < episode_.facts.size(); ++i) {
      const bool asked = std::any_of(asks.begin(), asks.end(), [&](const Ask& ask) { return ask.fact.index == i; });
      // What this step does not ask, an earlier one asked and led on by.
      if (episode_.facts[i] && !asked) episode_.facts[i]->used = true;
    }
    Scene scene{protocol_, child, episode_, Context{Age::of_months(0), std::nullopt, ClockTime::of_minutes(clock_)},
                {},        {},    {}};
    for (const auto& [fact, told] : child_facts_) {
      scene.child_facts[fact] = told;
      if (const auto* age = std::get_if<Age>(&told)) scene.context.age = *age;
      if (const auto* weight = std::get_if<BodyWeight>(&told)) scene.context.weight = *weight;
    }
    if (const auto watch = watch_that_fires(scene, protocol_[id])) return Next{protocol_.watch[*watch].go, "", ""};
    const auto match = first_match(scene, protocol_[id]);
    if (!match) return Next{};
    const Rule& rule = protocol_[id].rules[*match];
    return rule.hands_over_to.empty() ? Next{rule.go, rule.visits, ""} : Next{std::nullopt, "", rule.hands_over_to};
  }

 private:
  const Protocol& protocol_;
  Episode episode_{};
  int clock_ = 0;
  std::vector<std::pair<std::uint16_t, Value>> child_facts_;
};

constexpr int kFamilies = 12;         // for each place of each map
constexpr int kMostFamilies = 60'000;  // until each answer that a place names was given once

struct Tried {
  std::size_t places = 0, families = 0, depending = 0;
};

void judge(const Protocol& protocol, StepId id, std::mt19937& dice, Tried& tried) {
  const Step& step = protocol[id];
  const std::vector<Subject> subjects = read_by(protocol, step);
  std::vector<Axis> axes;
  for (const Subject& subject : subjects) {
    const auto alone = decisions_of(protocol, step, subject, std::nullopt, {});
    BOOST_REQUIRE_MESSAGE(alone.has_value(), step.name << " is too wide");
    BOOST_TEST(!alone->other_in_mmol);
    axes.push_back(alone->across);
  }
  const auto family_at = [&](std::size_t one, std::size_t x, std::size_t other, std::size_t y) -> std::optional<Next> {
    Family family(protocol);
    const GlucoseUnit unit = dice() % 2 == 0 ? GlucoseUnit::mg_per_dl : GlucoseUnit::mmol_per_l;
    for (std::size_t i = 0; i < axes.size(); ++i) {
      const std::size_t place = i == one ? x : i == other ? y : dice() % axes[i].values.size();
      if (!family.says(subjects[i], axes[i].values[place], unit)) return std::nullopt;
    }
    return family.goes_from(id);
  };
  for (std::size_t one = 0; one < subjects.size(); ++one) {
    for (std::size_t other = one + 1; other < subjects.size(); ++other) {
      const auto map = decisions_of(protocol, step, subjects[one], subjects[other], {});
      BOOST_REQUIRE(map.has_value());
      for (std::size_t y = 0; y < map->rows(); ++y) {
        for (std::size_t x = 0; x < map->across.values.size(); ++x) {
          const Decided& decided = map->at(x, y);
          ++tried.places;
          if (decided.nexts.size() > 1) ++tried.depending;
          std::vector<Next> missing = decided.nexts;
          for (int i = 0; i < kFamilies || (!missing.empty() && i < kMostFamilies); ++i) {
            const auto next = family_at(one, x, other, y);
            if (!next) return;
            ++tried.families;
            missing.erase(std::remove(missing.begin(), missing.end(), *next), missing.end());
            const bool said = std::find(decided.nexts.begin(), decided.nexts.end(), *next) != decided.nexts.end();
            BOOST_REQUIRE_MESSAGE(
                said, "step " << step.name << ", place " << x << ", " << y << " of " << one << ", " << other);
          }
          BOOST_REQUIRE_MESSAGE(missing.empty(), "step " << step.name << " never goes where its map says it may");
          BOOST_REQUIRE((decided.nexts.size() > 1) == !decided.by.empty());
        }
      }
    }
  }
}

}  // namespace

BOOST_AUTO_TEST_SUITE(decisions)

BOOST_DATA_TEST_CASE(every_place_of_every_map_goes_where_the_engine_goes, boost::unit_test::data::make(kShipped),
                     file) {
  const unsigned seed = 7;
  BOOST_TEST_MESSAGE("seed " << seed);
  std::mt19937 dice(seed);
  const Protocol protocol = protocol_at(file);
  Tried tried;
  for (std::size_t i = 0; i < protocol.steps.size(); ++i)
    judge(protocol, StepId{static_cast<std::uint16_t>(i)}, dice, tried);
  BOOST_TEST_MESSAGE(file << ": " << tried.places << " places, " << tried.depending << " of them depend on others, "
                          << tried.families << " families");
  BOOST_TEST(tried.places > 500U);
  BOOST_TEST(tried.depending > 50U);
}

BOOST_AUTO_TEST_SUITE_END()
