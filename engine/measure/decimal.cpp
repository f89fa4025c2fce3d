#include "measure/decimal.hpp"

#include <limits>

namespace rushlight {
namespace {

// `__extension__` keeps -Wpedantic quiet: both compilers have the type, the standard does not.
__extension__ typedef __int128 Wide;

Decimal saturated(Wide micros) {
  constexpr Wide kMost = std::numeric_limits<std::int64_t>::max();
  constexpr Wide kLeast = std::numeric_limits<std::int64_t>::min();
  if (micros > kMost) return Decimal::of_micros(std::numeric_limits<std::int64_t>::max());
  if (micros < kLeast) return Decimal::of_micros(std::numeric_limits<std::int64_t>::min());
  return Decimal::of_micros(static_cast<std::int64_t>(micros));
}

Wide floor_quotient(Wide dividend, Wide divisor) {
  const Wide cut = dividend / divisor;
  return cut * divisor > dividend ? cut - 1 : cut;
}

bool is_digit(char c) { return c >= '0' && c <= '9'; }

// Digits around at most one mark, after the sign has been taken off.
struct Shape {
  std::string_view whole;
  std::string_view places;
  char mark = '\0';
};

// False for anything that is not made of digits and one mark.
bool split(std::string_view text, Shape& shape) {
  std::size_t mark_at = text.size();
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (is_digit(text[i])) continue;
    const bool is_mark = text[i] == '.' || text[i] == ',';
    if (!is_mark || mark_at != text.size()) return false;
    mark_at = i;
  }
  shape.whole = text.substr(0, mark_at);
  if (mark_at < text.size()) {
    shape.mark = text[mark_at];
    shape.places = text.substr(mark_at + 1);
  }
  return true;
}

constexpr std::size_t kMostPlaces = 3;
constexpr std::size_t kMostWholeDigits = 7;  // a million has seven
constexpr std::int64_t kMostMicros = 1'000'000 * Decimal::kMicrosPerOne;

}  // namespace

Decimal product(Decimal a, Decimal b) {
  return saturated(Wide{a.micros()} * Wide{b.micros()} / Decimal::kMicrosPerOne);
}

Decimal quotient(Decimal a, Decimal b) {
  if (b.micros() == 0) return Decimal{};
  return saturated(Wide{a.micros()} * Decimal::kMicrosPerOne / Wide{b.micros()});
}

Decimal rounded(Decimal value, RoundDirection direction, Decimal step) {
  if (step.micros() <= 0) return value;
  const Wide width = step.micros();
  const Wide below = floor_quotient(value.micros(), width) * width;
  const Wide over = value.micros() - below;
  if (over == 0) return value;
  const bool go_up = direction == RoundDirection::up || (direction == RoundDirection::nearest && over * 2 >= width);
  return saturated(go_up ? below + width : below);
}

std::string text_from_decimal(Decimal value) {
  Wide micros = value.micros();
  std::string text;
  if (micros < 0) {
    text = "-";
    micros = -micros;
  }
  text += std::to_string(static_cast<std::int64_t>(micros / Decimal::kMicrosPerOne));
  const auto rest = static_cast<std::int64_t>(micros % Decimal::kMicrosPerOne);
  if (rest == 0) return text;
  std::string places = std::to_string(rest);
  places.insert(0, 6 - places.size(), '0');
  places.erase(places.find_last_not_of('0') + 1);
  return text + "." + places;
}

std::variant<Decimal, NumberMistake> decimal_from_text(std::string_view text, DecimalMark mark) {
  if (text.empty()) return NumberMistake::empty;
  const bool negative = text.front() == '-';
  if (negative) text.remove_prefix(1);

  Shape shape;
  if (text.empty() || !split(text, shape)) return NumberMistake::not_a_number;
  if (shape.mark == ',' && mark == DecimalMark::point) return NumberMistake::comma_not_point;
  if (shape.mark != '\0' && (shape.whole.empty() || shape.places.empty())) return NumberMistake::bare_mark;
  if (shape.whole.size() > 1 && shape.whole.front() == '0') return NumberMistake::leading_zero;
  if (shape.places.size() > kMostPlaces) return NumberMistake::too_many_places;
  if (shape.whole.size() > kMostWholeDigits) return NumberMistake::out_of_range;

  std::int64_t micros = 0;
  for (const char digit : shape.whole) micros = micros * 10 + (digit - '0');
  micros *= Decimal::kMicrosPerOne;
  std::int64_t place = Decimal::kMicrosPerOne;
  for (const char digit : shape.places) {
    place /= 10;
    micros += (digit - '0') * place;
  }
  if (micros > kMostMicros) return NumberMistake::out_of_range;
  return Decimal::of_micros(negative ? -micros : micros);
}

}  // namespace rushlight
