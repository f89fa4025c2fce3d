#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <variant>

namespace rushlight {

/// An exact decimal number with six places after the point: no binary fraction ever stands for a clinical value.
/// A value read from text has at most three places, so the product of any two such values is exact too.
class Decimal {
 public:
  static constexpr std::int64_t kMicrosPerOne = 1'000'000;

  constexpr Decimal() = default;
  static constexpr Decimal of_micros(std::int64_t micros) { return Decimal{micros}; }
  static constexpr Decimal whole(std::int64_t number) { return Decimal{number * kMicrosPerOne}; }
  constexpr std::int64_t micros() const { return micros_; }

  friend constexpr bool operator==(Decimal, Decimal) = default;
  friend constexpr auto operator<=>(Decimal, Decimal) = default;
  friend constexpr Decimal operator+(Decimal a, Decimal b) { return Decimal{a.micros_ + b.micros_}; }
  friend constexpr Decimal operator-(Decimal a, Decimal b) { return Decimal{a.micros_ - b.micros_}; }

 private:
  explicit constexpr Decimal(std::int64_t micros) : micros_(micros) {}
  std::int64_t micros_ = 0;
};

/// The exact product when both have at most three places (every value read from text has);
/// otherwise cut towards zero at the sixth place. Saturates at the ends of the range instead of wrapping.
Decimal product(Decimal a, Decimal b);

/// The quotient cut towards zero at the sixth place. A zero divisor gives zero: the readers refuse zero divisors.
Decimal quotient(Decimal a, Decimal b);

enum class RoundDirection : std::uint8_t { up, down, nearest };

/// `value` moved to a multiple of `step` (step above zero); a value that already is one stays.
/// "nearest" takes the upper multiple when both are equally near.
Decimal rounded(Decimal value, RoundDirection direction, Decimal step);

/// "6.3", "7", "0.05": no trailing zeros, always a point, never an exponent.
std::string text_from_decimal(Decimal value);

/// Which decimal marks the writer may use. Files always use the point; a keyboard in a language whose
/// decimal mark is the comma may use either.
enum class DecimalMark : std::uint8_t { point, point_or_comma };

enum class NumberMistake : std::uint8_t {
  empty,
  not_a_number,       // "7O", "abc", "nan", "inf", "0x46", "1e3", "--5", "+5"
  comma_not_point,    // "3,9" where only the point is a decimal mark
  leading_zero,       // "070": a zero in front means a slip of the finger or another base
  too_many_places,    // more than three digits after the mark
  out_of_range,       // beyond a million in size: no clinical value is
  bare_mark,          // "5." or ".5": a digit is missing beside the mark
};

/// The one number reader of the house: files, events, keyboard and command line all use it.
/// Takes the whole text or nothing; no blanks, no sign but one leading '-', no locale.
std::variant<Decimal, NumberMistake> decimal_from_text(std::string_view text, DecimalMark mark = DecimalMark::point);

}  // namespace rushlight
