#include "verify/dose_envelope.hpp"

#include <boost/test/unit_test.hpp>
#include <cstdlib>
#include <fstream>
#include <iterator>
#include <map>
#include <random>

#include "episode/dose_result.hpp"
#include "episode/fold.hpp"
#include "sanitized.hpp"
#include "tests/verify/shipped_files.hpp"
#include "tests/verify/small_checks.hpp"

// The ends of every dose of the shipped sets against the engine itself: thousands of children and readings, drawn by
// lot from a fine grid with its ends, each dosed by episode/dose_result.cpp, which knows nothing of pieces and corners.

using namespace rushlight;
using namespace rushlight::tests;

namespace {

constexpr int kChildren = kSanitized ? 4'000 : 60'000;
const Moment kNight = *moment_from_text("2026-03-01T02:10:00-05:00");

Protocol shipped(const std::string& name) {
  std::ifstream file(std::string(RUSHLIGHT_SOURCE_DIR) + "/protocols/" + name, std::ios::binary);
  Protocol protocol = resolved({std::istreambuf_iterator<char>(file), {}});
  protocol.parts.front().approval = Approval{
      "a clinic", "a nurse", *day_from_text("2026-01-01"), *day_from_text("2026-12-31"), {}, {}, {}, Standing::good};
  return protocol;
}

class Lots {
 public:
  explicit Lots(std::uint32_t seed) : engine_(seed) {}
  std::int64_t between(std::int64_t least, std::int64_t most) {
    return least + static_cast<std::int64_t>(engine_() % static_cast<std::uint64_t>(most - least + 1));
  }
  bool once_in(int times) { return between(1, times) == 1; }
  /// On a grid of this step; as often as not one of its ends, or what stands on either side of a border.
  Decimal number(Decimal least, Decimal most, Decimal step, const std::vector<Decimal>& borders) {
    const std::int64_t lot = between(0, 5);
    if (lot == 0) return least;
    if (lot == 1) return most;
    if (lot <= 3 && !borders.empty()) {
      const Decimal border =
          borders[static_cast<std::size_t>(between(0, static_cast<std::int64_t>(borders.size()) - 1))];
      return std::min(most, std::max(least, border + Decimal::of_micros(between(-1, 1) * 1'000)));
    }
    const std::int64_t steps = (most.micros() - least.micros()) / step.micros();
    return Decimal::of_micros(least.micros() + between(0, steps) * step.micros());
  }

 private:
  std::mt19937_64 engine_;
};

/// Every number of the file of one kind of fact, in this unit.
std::vector<Decimal> borders(const Protocol& protocol, FactKind kind, GlucoseUnit unit) {
  std::vector<Decimal> all;
  for (const Threshold& threshold : protocol.thresholds) {
    for (const Band& band : threshold.bands) {
      if (const auto* glucose = std::get_if<GlucoseLimit>(&band.value); glucose && kind == FactKind::glucose)
        all.push_back(glucose->in(unit));
      if (const auto* weight = std::get_if<BodyWeight>(&band.value); weight && kind == FactKind::weight)
        all.push_back(weight->in(kKilogram));
      if (const auto* ketones = std::get_if<BloodKetones>(&band.value); ketones && kind == FactKind::ketones)
        all.push_back(ketones->in(kMillimolePerLitre));
    }
  }
  return all;
}

Child some_child(Lots& lots, const Protocol& protocol) {
  Child child{};
  child.name = "Mara";
  child.unit = lots.once_in(2) ? GlucoseUnit::mg_per_dl : GlucoseUnit::mmol_per_l;
  child.birth = std::chrono::year_month_day{std::chrono::year{2026} / 3 / 1} -
                std::chrono::months{lots.once_in(4) ? lots.between(0, 1) * 227 : lots.between(0, 227)};
  if (!lots.once_in(5))
    child.weight = BodyWeight{lots.number(Decimal::whole(1), Decimal::whole(250), Decimal::of_micros(100'000),
                                          borders(protocol, FactKind::weight, child.unit)),
                              kKilogram};
  child.total_daily_dose = InsulinDose{
      lots.number(Decimal::of_micros(500'000), Decimal::whole(400), Decimal::of_micros(500'000), {}), kInsulinUnit};
  child.daily_dose_on = *day_from_text("2026-02-20");
  child.insulin_strength = Quantity{Decimal::whole(100), Unit::unit_per_ml};
  const bool mg = child.unit == GlucoseUnit::mg_per_dl;
  if (!lots.once_in(3))
    child.correction_factor =
        CorrectionFactor{lots.number(mg ? Decimal::whole(5) : Decimal::of_micros(300'000),
                                     mg ? Decimal::whole(400) : Decimal::whole(22), Decimal::of_micros(100'000), {}),
                         child.unit};
  child.delivery = static_cast<Delivery>(lots.between(0, 2));
  const std::int64_t kit = lots.between(0, 3);
  if (kit < 3)
    child.rescue = {{static_cast<RescueKind>(kit), *day_from_text("2027-01-01"), "drawer",
                     Quantity{Decimal::whole(1), Unit::mg_per_ml}}};
  return child;
}

Value some_value(Lots& lots, const Protocol& protocol, const Fact& fact, GlucoseUnit unit) {
  if (fact.name == "last-rapid-insulin") return NotLately{};
  if (fact.name == "already-given") return Chosen{0};
  if (lots.once_in(8)) return CantTell{};
  switch (fact.kind) {
    case FactKind::glucose:
      return Glucose::reading(lots.number(meter_range(unit).least, meter_range(unit).most, Decimal::of_micros(100'000),
                                          borders(protocol, fact.kind, unit)),
                              unit);
    case FactKind::ketones:
      return KetoneReading::reading(BloodKetones{
          lots.number(Decimal{}, Decimal::whole(8), Decimal::of_micros(100'000), borders(protocol, fact.kind, unit)),
          kMillimolePerLitre});
    case FactKind::count:
      return Count{static_cast<int>(lots.between(0, 9))};
    case FactKind::time_since:
      return Ago{std::chrono::minutes{lots.between(0, 600)}};
    default:
      return Chosen{static_cast<std::uint16_t>(lots.between(0, static_cast<std::int64_t>(fact.options.size()) - 1))};
  }
}

struct Seen {
  std::optional<Decimal> least, greatest;
  void note(Decimal amount) {
    least = least ? std::min(*least, amount) : amount;
    greatest = greatest ? std::max(*greatest, amount) : amount;
  }
};

/// What the engine gives to many children, by dose.
std::vector<Seen> seen_in(const Protocol& protocol) {
  std::vector<Seen> seen(protocol.doses.size());
  Lots lots(20260301);
  for (int i = 0; i < kChildren; ++i) {
    const Child child = some_child(lots, protocol);
    Episode episode = begun(protocol, child, kNight);
    episode.opening.clear();  // answered below, with everything else
    for (std::size_t fact = kChildFacts; fact < protocol.facts.size(); ++fact) {
      episode.facts[fact] = Known{some_value(lots, protocol, protocol.facts[fact], child.unit), kNight.utc, 1};
    }
    const Scene scene = scene_at(protocol, child, episode, kNight.utc);
    for (std::size_t dose = 0; dose < seen.size(); ++dose) {
      const DoseResult result = dose_for(scene, DoseId{static_cast<std::uint16_t>(dose)}, Language::en);
      if (result.amount) seen[dose].note(result.amount->value);
    }
  }
  return seen;
}

std::string ends(const std::optional<Decimal>& least, const std::optional<Decimal>& greatest) {
  return least && greatest ? text_from_decimal(*least) + " to " + text_from_decimal(*greatest) : "none";
}

}  // namespace

BOOST_AUTO_TEST_SUITE(dose_envelope)

BOOST_AUTO_TEST_CASE(least_and_greatest_of_every_shipped_dose_are_what_the_engine_gives_to_a_crowd_of_children) {
  for (const char* file : kShippedFiles) {
    const Protocol protocol = shipped(file);
    const std::vector<Seen> seen = seen_in(protocol);
    for (const DoseEnvelope& envelope : dose_envelopes(protocol)) {
      const auto value = [](const std::optional<DoseEnd>& end) {
        return end ? std::optional(end->amount.value) : std::nullopt;
      };
      const Seen& crowd = seen[envelope.dose.index];
      BOOST_TEST(ends(crowd.least, crowd.greatest) == ends(value(envelope.least), value(envelope.greatest)),
                 file << ": " << text_from_envelope(protocol, envelope) << ", and the engine gave "
                      << ends(crowd.least, crowd.greatest));
    }
  }
}

BOOST_AUTO_TEST_CASE(the_page_of_doses_is_what_the_program_works_out) {
  const std::string path = std::string(RUSHLIGHT_SOURCE_DIR) + "/docs/doses.md";
  std::ifstream file(path, std::ios::binary);
  const std::string page{std::istreambuf_iterator<char>(file), {}};
  std::string now = page.substr(0, page.find("## "));
  for (const char* name : kShippedFiles) {
    const Protocol protocol = shipped(name);
    now += "## " + std::string(name) + "\n";
    for (const DoseEnvelope& envelope : dose_envelopes(protocol))
      now += "- " + text_from_envelope(protocol, envelope) + "\n";
    now += "\n";
  }
  now.pop_back();
  if (std::getenv("RUSHLIGHT_REWRITE") != nullptr) std::ofstream(path, std::ios::binary) << now;
  BOOST_TEST((page == now), "docs/doses.md differs: RUSHLIGHT_REWRITE=1 writes it anew");
}

// Sources: Haymond and Schreiner 2001 (20 to 150 micrograms, the double of that when it has not risen); US labels (0.5
// or 1 mg by injection, 3 mg by the nose); SDCEP and the Italian society 2024 (5 to 15 g); Alder Hey (at most 20
// units).
BOOST_AUTO_TEST_CASE(shipped_doses_lie_where_their_sources_put_them) {
  const std::map<std::string, std::string> published = {{"reference/illness.xml mini-glucagon", "20 to 150"},
                                                        {"reference/illness.xml double-mini", "40 to 300"},
                                                        {"reference/low.xml rescue-glucagon", "0.5 to 3"},
                                                        {"reference/ketones.xml extra-insulin", "0.5 to 20"}};
  std::size_t met = 0;
  for (const char* name : kShippedFiles) {
    const Protocol protocol = shipped(name);
    for (const DoseEnvelope& envelope : dose_envelopes(protocol)) {
      const auto row = published.find(std::string(name) + " " + protocol[envelope.dose].name);
      if (row == published.end()) continue;
      ++met;
      BOOST_REQUIRE(envelope.least && envelope.greatest);
      BOOST_TEST(ends(envelope.least->amount.value, envelope.greatest->amount.value) == row->second);
    }
  }
  BOOST_TEST(met == published.size());
}

BOOST_AUTO_TEST_SUITE_END()
