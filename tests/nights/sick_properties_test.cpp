// What must hold on every sick day, whoever answers what: told apart from the engine by a caregiver made of dice.
#include <boost/test/unit_test.hpp>

#include "episode/sick_night.hpp"
#include "nights/random_sick_day.hpp"
#include "nights/walked_set.hpp"
#include "sanitized.hpp"

using namespace rushlight;
using namespace rushlight::test;

namespace {

const std::string kFolderOfSets = RUSHLIGHT_SOURCE_DIR "/protocols/";
constexpr std::uint32_t kDays = tests::kSanitized ? 60 : 400;
constexpr int kEventsADay = 90;

template <class Kind>
Kind limit_of(const Protocol& protocol, const std::string& name) {
  for (const Threshold& threshold : protocol.thresholds) {
    if (threshold.name == name) return std::get<Kind>(threshold.bands.front().value);
  }
  throw std::runtime_error("no threshold: " + name);
}

const ShownAction* insulin_in(const View& view) {
  for (const ShownAction& action : view.actions) {
    if (action.kind == ActionKind::insulin && action.dose && action.dose->amount) return &action;
  }
  return nullptr;
}

Child child_with_a_factor() {
  Child child = sick_mara();
  child.correction_factor = CorrectionFactor{Decimal::whole(80), GlucoseUnit::mg_per_dl};
  return child;
}

template <class Look>
void every_day(const std::string& set, const std::string& protocol, bool approved, Look look) {
  for (std::uint32_t number = 1; number <= kDays; ++number) {
    RandomSickDay day(walked_protocol(kFolderOfSets + set, protocol, approved), child_with_a_factor(), number);
    for (int event = 0; event < kEventsADay; ++event) look(day, day.step());
  }
}

}  // namespace

BOOST_AUTO_TEST_SUITE(sick_day_properties)

BOOST_AUTO_TEST_CASE(insulin_is_never_advised_below_the_floor_too_soon_or_above_the_cap) {
  int advised = 0;
  for (const char* protocol : {"ketones", "illness"}) {
    every_day("reference", protocol, true, [&](const RandomSickDay& day, const View& view) {
      const ShownAction* insulin = insulin_in(view);
      if (insulin == nullptr) return;
      ++advised;
      const auto glucose = day.told("glucose");
      BOOST_REQUIRE(glucose.has_value());
      const auto* reading = std::get_if<Glucose>(&glucose->value);
      BOOST_REQUIRE(reading != nullptr);
      BOOST_TEST(compare(*reading, limit_of<GlucoseLimit>(day.protocol(), "insulin-floor")) >= 0);
      BOOST_TEST((day.now().utc - glucose->when <= limit_of<Duration>(day.protocol(), "insulin-fresh")));

      const Duration apart = limit_of<Duration>(day.protocol(), "no-stacking");
      for (const Instant given : day.insulin()) BOOST_TEST((day.now().utc - given >= apart));
      if (const auto last = day.told("last-rapid-insulin"); last && day.insulin().empty()) {
        const auto* ago = std::get_if<Ago>(&last->value);
        BOOST_TEST((!std::holds_alternative<CantTell>(last->value)));
        if (ago != nullptr) BOOST_TEST((ago->time + (day.now().utc - last->when) >= apart));
      }

      const Decimal amount = insulin->dose->amount->value;
      BOOST_TEST((amount <= Decimal::of_micros(3'200'000)), text_from_decimal(amount));  // 20 % of 16 units
      BOOST_TEST((rounded(amount, RoundDirection::down, Decimal::of_micros(500'000)) == amount));
    });
  }
  BOOST_TEST_MESSAGE(advised << " views advised insulin");
  BOOST_TEST(advised > 20);
}

BOOST_AUTO_TEST_CASE(protocol_nobody_approved_never_advises_insulin) {
  int withheld = 0;
  every_day("reference", "ketones", false, [&](const RandomSickDay&, const View& view) {
    BOOST_TEST((insulin_in(view) == nullptr));
    withheld += static_cast<int>(view.withheld.size());
  });
  BOOST_TEST(withheld > 20);
}

BOOST_AUTO_TEST_CASE(clinic_that_doses_by_phone_never_has_an_amount_shown) {
  int withheld = 0;
  for (const char* protocol : {"ketones", "illness"}) {
    every_day("harbour-lane", protocol, true, [&](const RandomSickDay&, const View& view) {
      BOOST_TEST((insulin_in(view) == nullptr));
      withheld += static_cast<int>(view.withheld.size());
    });
  }
  BOOST_TEST(withheld > 20);
}

BOOST_AUTO_TEST_CASE(total_drunk_is_the_sum_of_what_was_told) {
  int counted = 0;
  for (const char* set : {"reference", "harbour-lane"}) {
    every_day(set, "illness", false, [&](const RandomSickDay& day, const View& view) {
      if (!view.drinks) return;
      ++counted;
      BOOST_TEST(text_from_quantity(view.drinks->drunk) == std::to_string(day.drunk()) + " mL");
    });
  }
  BOOST_TEST(counted > 100);
}

BOOST_AUTO_TEST_CASE(correction_before_anything_was_given_is_as_if_it_had_been_answered_rightly) {
  int compared = 0;
  for (std::uint32_t number = 1; number <= kDays; ++number) {
    RandomSickDay day(walked_protocol(kFolderOfSets + "reference", "illness", false), sick_mara(), number);
    for (int event = 0; event < 14; ++event) day.step();
    const bool something_given = !day.episode().given.empty();
    if (something_given) continue;
    for (std::size_t place = 0; place < day.events().size(); ++place) {
      const auto* said = std::get_if<Answered>(&day.events()[place].what);
      if (said == nullptr || day.protocol()[said->answers.front().first].kind != FactKind::glucose) continue;
      const FactId glucose = said->answers.front().first;
      const Value right = Glucose::reading(Decimal::whole(141), GlucoseUnit::mg_per_dl);
      Episode rightly = begun(day.protocol(), day.child(), day.events().front().at);
      Episode corrected = rightly;
      for (std::size_t i = 0; i < day.events().size(); ++i) {
        Event event = day.events()[i];
        corrected = folded(day.protocol(), day.child(), std::move(corrected), event);
        if (i == place) std::get<Answered>(event.what).answers.front().second = right;
        rightly = folded(day.protocol(), day.child(), std::move(rightly), event);
        const auto* later = std::get_if<Answered>(&event.what);
        if (i > place && later != nullptr && later->answers.front().first == glucose) break;
        if (i != place) continue;
        corrected = folded(day.protocol(), day.child(), std::move(corrected), Event{event.at, Corrected{{{glucose, right}}}});
        const View one = view_of(day.protocol(), day.child(), rightly, event.at);
        const View other = view_of(day.protocol(), day.child(), corrected, event.at);
        BOOST_TEST(one.step == other.step);
        BOOST_TEST(one.headline == other.headline);
        BOOST_TEST((one.urgency == other.urgency));
        ++compared;
        break;
      }
      break;
    }
  }
  BOOST_TEST(compared > (tests::kSanitized ? 2 : 20));
}

constexpr std::pair<const char*, const char*> kWalked[] = {
    {"reference", "ketones"}, {"reference", "illness"}, {"harbour-lane", "ketones"}, {"harbour-lane", "illness"}};

BOOST_AUTO_TEST_CASE(higher_ketones_or_more_vomiting_never_make_it_calmer) {
  int compared = 0;
  const auto worse_than = [](const Value& value) -> std::optional<Value> {
    if (const auto* ketones = std::get_if<KetoneReading>(&value); ketones != nullptr && ketones->number())
      return KetoneReading::reading(
          BloodKetones{ketones->number()->in(kMillimolePerLitre) + Decimal::of_micros(900'000), kMillimolePerLitre});
    if (const auto* count = std::get_if<Count>(&value)) return Count{count->number + 2};
    return std::nullopt;
  };
  for (const auto& [set, protocol] : kWalked) {
    for (std::uint32_t number = 1; number <= kDays; ++number) {
      RandomSickDay day(walked_protocol(kFolderOfSets + set, protocol, false), sick_mara(), number);
      for (int event = 0; event < kEventsADay; ++event) {
        const Episode before = day.episode();
        const View view = day.step();
        const auto* said = std::get_if<Answered>(&day.events().back().what);
        if (said == nullptr) continue;
        const auto& [fact, value] = said->answers.front();
        const std::string& name = day.protocol()[fact].name;
        const std::optional<Value> worse = name == "ketones" || name == "vomits" ? worse_than(value) : std::nullopt;
        if (!worse) continue;
        const Event event_worse{day.now(), Answered{{{fact, *worse}}}};
        const View other = view_of(day.protocol(), day.child(), folded(day.protocol(), day.child(), before, event_worse), day.now());
        BOOST_TEST((view.urgency <= other.urgency), name << " worse in " << set << ' ' << protocol << ": " << view.step << " becomes "
                                                         << other.step);
        ++compared;
      }
    }
  }
  BOOST_TEST_MESSAGE(compared << " answers made worse");
  BOOST_TEST(compared > 100);
}

BOOST_AUTO_TEST_CASE(correction_never_takes_back_what_was_given) {
  every_day("reference", "ketones", true, [&](RandomSickDay& day, const View& view) {
    if (view.given.empty()) return;
    const auto glucose = day.protocol().fact_named("glucose");
    const Event correction{day.now(), Corrected{{{*glucose, Glucose::reading(Decimal::whole(111), GlucoseUnit::mg_per_dl)}}}};
    const Episode after = folded(day.protocol(), day.child(), day.episode(), correction);
    BOOST_TEST(view_of(day.protocol(), day.child(), after, day.now()).given.size() == view.given.size());
  });
}

BOOST_AUTO_TEST_SUITE_END()
