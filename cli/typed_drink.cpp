#include "cli/typed_drink.hpp"

#include "cli/plain_text.hpp"
#include "measure/written.hpp"

namespace rushlight {
namespace {

// Common practice, no source: beyond it the finger slipped. No more than the journal takes back (wire/deeds_from_json).
constexpr Decimal kMost = Decimal::whole(1000);

std::optional<Decimal> millilitres_in(std::string_view unit, bool bare_number_counts) {
  if (unit == "ml") return Decimal::whole(1);
  if (unit == "cl") return Decimal::whole(10);
  if (unit == "dl") return Decimal::whole(100);
  if (unit == "l") return Decimal::whole(1000);
  if (unit.empty() && bare_number_counts) return Decimal::whole(1);
  return std::nullopt;
}

}  // namespace

std::optional<Quantity> drink_from_text(const std::string& typed, Language language, bool bare_number_counts) {
  const std::string text = small_letters(trimmed(typed));
  const Written written = written_from_text(text);
  const std::optional<Decimal> each = millilitres_in(written.unit, bare_number_counts);
  const DecimalMark mark = language == Language::es ? DecimalMark::point_or_comma : DecimalMark::point;
  const auto read = decimal_from_text(written.number, mark);
  const auto* number = std::get_if<Decimal>(&read);
  if (!each || number == nullptr || *number <= Decimal{}) return std::nullopt;
  const Decimal drunk = product(*number, *each);
  if (drunk > kMost) return std::nullopt;
  return Quantity{drunk, Unit::millilitre};
}

}  // namespace rushlight
