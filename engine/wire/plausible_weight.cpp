#include "wire/plausible_weight.hpp"

#include <array>

namespace rushlight {
namespace {

enum class From : std::uint8_t { who, cdc };

// As published, in tenths of a kilogram.
struct Row {
  int months;
  int lightest;
  int heaviest;
  From from;
};

constexpr std::array<Row, 22> kRows{{
    {0, 20, 50, From::who},     {3, 40, 90, From::who},      {6, 51, 109, From::who},    {12, 63, 133, From::who},
    {24, 81, 171, From::who},   {36, 96, 209, From::who},    {48, 109, 252, From::who},  {60, 121, 295, From::who},
    {72, 159, 288, From::cdc},  {84, 178, 335, From::cdc},   {96, 195, 383, From::cdc},  {108, 213, 438, From::cdc},
    {120, 239, 511, From::cdc}, {132, 265, 584, From::cdc},  {144, 293, 662, From::cdc}, {156, 328, 721, From::cdc},
    {168, 366, 775, From::cdc}, {180, 395, 830, From::cdc},  {192, 417, 895, From::cdc}, {204, 433, 936, From::cdc},
    {216, 442, 971, From::cdc}, {240, 450, 1008, From::cdc},
}};

// In grams.
constexpr int least_of(const Row& row) { return row.from == From::who ? row.lightest * 90 : row.lightest * 80; }
constexpr int most_of(const Row& row) { return row.from == From::who ? row.heaviest * 110 : row.heaviest * 125; }

constexpr int between(int from, int to, int passed, int whole) { return from + (to - from) * passed / whole; }

BodyWeight from_grams(int grams) {
  return BodyWeight{Decimal::of_micros(std::int64_t{grams} * (Decimal::kMicrosPerOne / 1000)), kKilogram};
}

}  // namespace

WeightRange plausible_weight(Age age) {
  for (std::size_t i = 1; i < kRows.size(); ++i) {
    const Row& before = kRows[i - 1];
    const Row& after = kRows[i];
    if (age.months() >= after.months) continue;
    const int passed = age.months() - before.months;
    const int whole = after.months - before.months;
    return {from_grams(between(least_of(before), least_of(after), passed, whole)),
            from_grams(between(most_of(before), most_of(after), passed, whole))};
  }
  return {from_grams(least_of(kRows.back())), from_grams(most_of(kRows.back()))};
}

Decimal most_daily_insulin_per_kilogram() { return Decimal::whole(2); }

}  // namespace rushlight
