#include "cli/typed_units.hpp"

#include "cli/plain_text.hpp"
#include "measure/written.hpp"

namespace rushlight {
namespace {

constexpr Decimal kMostUnits = Decimal::whole(50);  // common practice, no source: beyond it the finger slipped

bool means_units(std::string_view word) {
  for (const char* each : {"", "u", "unit", "units", "unidad", "unidades"}) {
    if (word == each) return true;
  }
  return false;
}

}  // namespace

std::optional<Quantity> units_from_text(const std::string& typed, Language language) {
  const std::string text = small_letters(trimmed(typed));
  const Written written = written_from_text(text);
  const DecimalMark mark = language == Language::es ? DecimalMark::point_or_comma : DecimalMark::point;
  const auto read = decimal_from_text(written.number, mark);
  const auto* number = std::get_if<Decimal>(&read);
  if (!means_units(written.unit) || number == nullptr || *number <= Decimal{} || *number > kMostUnits) return std::nullopt;
  return Quantity{*number, Unit::insulin_unit};
}

}  // namespace rushlight
