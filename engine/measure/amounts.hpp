#pragma once

#include <chrono>
#include <optional>
#include <string>

#include "measure/quantity.hpp"

namespace rushlight {

/// A number of one unit, as a type of its own: a weight never meets a dose in one expression.
/// The number leaves only by naming the unit: `weight.in(kKilogram)`.
template <Unit U>
class Amount {
 public:
  struct Tag {};
  constexpr Amount(Decimal value, Tag) : value_(value) {}
  constexpr Decimal in(Tag) const { return value_; }
  Quantity quantity() const { return Quantity{value_, U}; }
  friend constexpr bool operator==(Amount, Amount) = default;
  friend constexpr auto operator<=>(Amount, Amount) = default;

 private:
  Decimal value_;
};

using BodyWeight = Amount<Unit::kilogram>;
using Carbohydrate = Amount<Unit::gram>;
using InsulinDose = Amount<Unit::insulin_unit>;
using BloodKetones = Amount<Unit::mmol_per_l>;

inline constexpr BodyWeight::Tag kKilogram{};
inline constexpr Carbohydrate::Tag kGram{};
inline constexpr InsulinDose::Tag kInsulinUnit{};
inline constexpr BloodKetones::Tag kMillimolePerLitre{};

/// A weight given in pounds, to one place in kilograms: to ask "was that in pounds?" about a weight that does not
/// fit the age. Never used to change a weight without asking.
/// Source: 1 lb is 0.45359237 kg exactly (international avoirdupois pound, 1959).
BodyWeight weight_from_pounds(Decimal pounds);

/// Whole seconds; everything a protocol says about time is at least that coarse.
using Duration = std::chrono::seconds;

/// From a quantity in s, min, h or d; empty for another unit, a fraction of a second, less than nothing,
/// or more than a thousand years.
std::optional<Duration> duration_from_quantity(const Quantity& quantity);

/// The shortest whole UCUM form: "15 min", "2 h", "90 s", "3 d".
std::string text_from_duration(Duration duration);

/// What of an amount for each hour falls into this time, cut towards zero at the sixth place.
Decimal within(Decimal each_hour, Duration time);

/// Completed months of life. Negative never occurs: the child reader refuses a birth date in the future.
class Age {
 public:
  static constexpr Age of_months(int months) { return Age{months}; }
  static constexpr Age of_years(int years) { return Age{years * 12}; }
  constexpr int months() const { return months_; }
  constexpr int completed_years() const { return months_ / 12; }
  friend constexpr bool operator==(Age, Age) = default;
  friend constexpr auto operator<=>(Age, Age) = default;

 private:
  explicit constexpr Age(int months) : months_(months) {}
  int months_;
};

/// From a whole quantity in mo or a; empty otherwise, below zero, or beyond a thousand.
std::optional<Age> age_from_quantity(const Quantity& quantity);

/// "5 a" for whole years, otherwise in months, "30 mo": the UCUM form used in files and findings.
std::string text_from_age(Age age);

}  // namespace rushlight
