#include "bench/rule_set.hpp"

namespace rushlight::bench {
namespace {

struct Prepared {
  const PlainFacts& facts;
  int awake() const { return facts.awake; }
  int swallow() const { return facts.swallow; }
  int seizure() const { return facts.seizure; }
  int breathing() const { return facts.breathing; }
  int vomits() const { return facts.vomits; }
  int drinking() const { return facts.drinking; }
  int drowsy() const { return facts.drowsy; }
  int glucose() const { return facts.glucose; }
  int tenths_ketones() const { return facts.tenths_ketones; }
};

struct Kept {
  const Episode& episode;
  const Value& value(FactPlace place) const { return episode.facts[place]->value; }
  int option(FactPlace place) const {
    const auto* chosen = std::get_if<Chosen>(&value(place));
    return chosen ? chosen->option : -1;
  }
  int awake() const { return option(kAwake); }
  int swallow() const { return option(kSwallow); }
  int seizure() const { return option(kSeizure); }
  int breathing() const { return option(kBreathing); }
  int drinking() const { return option(kDrinking); }
  int drowsy() const { return option(kDrowsy); }
  int vomits() const {
    const auto* count = std::get_if<Count>(&value(kVomits));
    return count ? count->number : -1;
  }
  int glucose() const {
    const auto* glucose = std::get_if<Glucose>(&value(kGlucose));
    return glucose ? static_cast<int>(glucose->number()->micros() / Decimal::kMicrosPerOne) : -1;
  }
  int tenths_ketones() const {
    const auto* ketones = std::get_if<KetoneReading>(&value(kKetones));
    return ketones ? static_cast<int>(ketones->number()->in(kMillimolePerLitre).micros() / 100'000) : -1;
  }
};

template <class Facts>
std::uint16_t danger(const Facts& f) {
  const bool known_low = f.glucose() >= 0 && f.glucose() < 70;
  if (f.awake() == 2 || f.awake() < 0) return 0;
  if (f.seizure() == 0) return 1;
  if (f.breathing() == 2) return 2;
  if (f.swallow() != 0 && known_low) return 3;
  if (f.swallow() != 0 && f.drowsy() == 0) return 4;
  if (f.awake() == 1 && f.glucose() >= 0 && f.glucose() < 54) return 5;
  if (f.awake() == 1 && f.glucose() < 0) return 6;
  if (f.tenths_ketones() >= 30 && f.vomits() >= 1) return 7;
  if (f.tenths_ketones() >= 30 && f.breathing() == 1) return 8;
  if (f.tenths_ketones() >= 30) return 9;
  if (f.vomits() >= 3 && f.drinking() == 1) return 10;
  if (f.vomits() >= 3 && f.tenths_ketones() >= 15) return 11;
  if (f.vomits() >= 4) return 12;
  if (f.breathing() == 1 && f.tenths_ketones() >= 15) return 13;
  if (f.drowsy() == 0 && f.glucose() >= 250) return 14;
  if (f.drowsy() == 0 && known_low) return 15;
  if (f.tenths_ketones() >= 15 && f.drinking() == 1) return 16;
  if (f.glucose() >= 0 && f.glucose() < 54) return 17;
  if (f.awake() == 1) return 18;
  if (known_low && f.vomits() >= 1) return 19;
  if (known_low) return 20;
  if (f.tenths_ketones() < 0 && f.glucose() >= 250) return 21;
  if (f.glucose() < 0 && f.seizure() == 1) return 22;
  return kNoRule;
}

std::uint16_t column(int tenths, std::uint16_t first) {
  if (tenths < 0) return kNoRule;
  if (tenths < 6) return first;
  if (tenths < 15) return static_cast<std::uint16_t>(first + 1);
  if (tenths < 30) return static_cast<std::uint16_t>(first + 2);
  return static_cast<std::uint16_t>(first + 3);
}

template <class Facts>
std::uint16_t grid(const Facts& f) {
  if (f.glucose() < 0) return kNoRule;
  if (f.glucose() < 70) return column(f.tenths_ketones(), 0);
  if (f.glucose() < 100) return column(f.tenths_ketones(), 4);
  if (f.glucose() < 180) return column(f.tenths_ketones(), 8);
  if (f.glucose() < 250) return column(f.tenths_ketones(), 12);
  return column(f.tenths_ketones(), 16);
}

template <class Facts>
std::uint16_t dose(const Facts& f) {
  if (f.glucose() >= 0 && f.glucose() < 54) return 0;
  if (f.glucose() >= 0 && f.glucose() < 70 && f.swallow() == 0) return 1;
  if (f.glucose() >= 70) return 2;
  return kNoRule;
}

}  // namespace

Chosen3 by_hand(const PlainFacts& facts) {
  const Prepared f{facts};
  return {danger(f), grid(f), dose(f)};
}

Chosen3 by_hand(const Episode& episode) {
  const Kept f{episode};
  return {danger(f), grid(f), dose(f)};
}

}  // namespace rushlight::bench
