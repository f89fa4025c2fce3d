#include "measure/ketones.hpp"

#include "measure/written.hpp"

namespace rushlight {
namespace {

// mg/dL in one mmol/L of beta-hydroxybutyrate (104.105 g/mol).
constexpr Decimal kMgPerDlInOneMmolPerL = Decimal::of_micros(10'410'500);
constexpr Decimal kOnePlace = Decimal::of_micros(100'000);

// Above this a number is more likely in mg/dL. Common practice, no source.
constexpr Decimal kLargestBelieved = Decimal::whole(10);

}  // namespace

int compare(const KetoneReading& reading, BloodKetones limit) {
  const std::optional<BloodKetones> number = reading.number();
  if (!number || *number > limit) return 1;
  return *number == limit ? 0 : -1;
}

std::string text_from_ketones(const KetoneReading& reading) {
  const std::optional<BloodKetones> number = reading.number();
  return number ? text_from_quantity(number->quantity()) : "HI";
}

Decimal ketones_from_mg_per_dl(Decimal value) {
  return rounded(quotient(value, kMgPerDlInOneMmolPerL), RoundDirection::nearest, kOnePlace);
}

BloodKetones largest_ketones_shown() { return BloodKetones{Decimal::whole(8), kMillimolePerLitre}; }

std::variant<KetoneReading, KetoneRefusal> ketones_from_text(std::string_view text, DecimalMark mark) {
  text = trimmed(text);
  if (small_letters(text) == "hi") return KetoneReading::hi();

  const auto refused = [&](KetoneMistake mistake, std::optional<NumberMistake> number) {
    return KetoneRefusal{mistake, number, std::string(text)};
  };
  const Written written = written_from_text(text);
  const auto number = decimal_from_text(written.number, mark);
  if (const auto* wrong = std::get_if<NumberMistake>(&number)) {
    const NumberMistake why = text.empty() || *wrong != NumberMistake::empty ? *wrong : NumberMistake::not_a_number;
    return refused(KetoneMistake::not_a_number, why);
  }
  if (!written.unit.empty()) {
    const bool torn = written.unit.front() >= '0' && written.unit.front() <= '9';
    if (torn) return refused(KetoneMistake::not_a_number, NumberMistake::not_a_number);
    const std::string unit = small_letters(written.unit);
    if (unit == "mg/dl") return refused(KetoneMistake::other_unit_likely, std::nullopt);
    if (unit != "mmol/l") return refused(KetoneMistake::unknown_unit, std::nullopt);
  }
  const BloodKetones value{*std::get_if<Decimal>(&number), kMillimolePerLitre};
  if (value.in(kMillimolePerLitre) > kLargestBelieved) return refused(KetoneMistake::other_unit_likely, std::nullopt);
  const bool shown = Decimal{} <= value.in(kMillimolePerLitre) && value <= largest_ketones_shown();
  if (!shown) return refused(KetoneMistake::beyond_meter, std::nullopt);
  return KetoneReading::reading(value);
}

}  // namespace rushlight
