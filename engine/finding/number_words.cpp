#include "finding/number_words.hpp"

#include <algorithm>
#include <variant>

#include "finding/unit_words.hpp"
#include "measure/quantity.hpp"
#include "measure/written.hpp"

namespace rushlight {
namespace {

std::string number_meant_by(std::string text) {
  const std::size_t comma = text.find(',');
  if (comma != std::string::npos) {
    // "1,000" may be a thousand: three digits after a comma are not taken for places.
    if (text.size() - comma == 4) return {};
    text[comma] = '.';
  }
  const bool negative = !text.empty() && text.front() == '-';
  if (negative || (!text.empty() && text.front() == '+')) text.erase(0, 1);
  if (text.find_first_of("0123456789") == std::string::npos || text.front() == '-') return {};
  text.erase(0, std::min(text.find_first_not_of('0'), text.size() - 1));
  if (text.front() == '.') text.insert(0, "0");
  if (text.back() == '.') text.pop_back();
  const auto number = decimal_from_text(negative ? "-" + text : text);
  const auto* value = std::get_if<Decimal>(&number);
  return value ? text_from_decimal(*value) : std::string{};
}

}  // namespace

std::string words_from_mistake(NumberMistake mistake) {
  switch (mistake) {
    case NumberMistake::empty:
      return "nothing is written";
    case NumberMistake::not_a_number:
      return "a number has only digits and at most one point";
    case NumberMistake::comma_not_point:
      return "the decimal mark in a file is the point";
    case NumberMistake::leading_zero:
      return "a zero in front is often a slip of the finger";
    case NumberMistake::too_many_places:
      return "more than three digits stand after the point";
    case NumberMistake::out_of_range:
      return "it is larger than a million";
    case NumberMistake::bare_mark:
      return "a digit is missing beside the point";
  }
  return {};
}

BadNumber bad_number(const std::string& written, NumberMistake mistake) {
  return BadNumber{written, words_from_mistake(mistake)};
}

std::string value_meant_by(const std::string& written) {
  const Written parts = written_from_text(written);
  if (std::holds_alternative<Decimal>(decimal_from_text(parts.number))) return {};
  std::optional<Unit> unit = unit_from_ucum(parts.unit);
  if (!unit) unit = unit_spelled_out(parts.unit);
  if (!parts.unit.empty() && !unit) return {};
  const std::string number = number_meant_by(std::string(parts.number));
  return number.empty() || !unit ? number : number + " " + std::string(ucum(*unit));
}

}  // namespace rushlight
