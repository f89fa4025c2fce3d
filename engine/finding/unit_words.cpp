#include "finding/unit_words.hpp"

#include <algorithm>

#include "measure/written.hpp"

namespace rushlight {
namespace {

struct UnitWords {
  Unit unit;
  std::string_view words;  // small letters, one blank between
};

// As people write them, in both languages of the house. A blank inside a unit does not count: "g / 100 ml".
constexpr UnitWords kSpelledOut[] = {
    {Unit::kilogram, "kgs kilo kilos kilogram kilograms kilogramo kilogramos"},
    {Unit::gram, "gr gm gram grams gramme grammes gramo gramos"},
    {Unit::milligram, "milligram milligrams miligramo miligramos"},
    {Unit::microgram, "mcg \u00B5g \u03BCg microgram micrograms microgramo microgramos"},
    {Unit::millilitre, "mls millilitre millilitres milliliter milliliters mililitro mililitros"},
    {Unit::insulin_unit, "u iu ui unit units unidad unidades"},
    {Unit::second, "sec secs second seconds segundo segundos"},
    {Unit::minute, "mins min. minute minutes minuto minutos"},
    {Unit::hour, "hr hrs hour hours hora horas"},
    {Unit::day, "day days d\u00EDa d\u00EDas dia dias"},
    {Unit::month, "month months mes meses"},
    {Unit::year, "y yr yrs year years a\u00F1o a\u00F1os"},
    {Unit::gram_per_kilogram, "gperkg gramsperkg gramsperkilogram"},
    {Unit::gram_per_100_gram, "g/100g gper100g g/(100g) gin100g gen100g"},
    {Unit::gram_per_100_ml, "g/100ml gper100ml g/(100ml) gin100ml gen100ml"},
    {Unit::unit_per_kilogram, "u/kg iu/kg ui/kg unit/kg units/kg unidad/kg unidades/kg"},
    {Unit::microgram_per_year, "mcg/a microgramayear microgramsayear microgramoala\u00F1o microgramosala\u00F1o"},
};

/// Whether a list of words holds one of them whole; `ends` stand behind a word beside its end.
bool holds_word(std::string_view list, std::string_view word, std::string_view ends) {
  for (std::size_t at = list.find(word); at != std::string_view::npos; at = list.find(word, at + 1)) {
    const std::size_t end = at + word.size();
    if ((at == 0 || list[at - 1] == ' ') && (end == list.size() || ends.find(list[end]) != std::string_view::npos)) return true;
  }
  return false;
}

std::string without_blanks(std::string text) {
  text.erase(std::remove_if(text.begin(), text.end(), [](char c) { return c == ' ' || c == '\t'; }), text.end());
  return text;
}

}  // namespace

std::optional<Unit> unit_spelled_out(std::string_view written) {
  if (unit_from_ucum(written)) return std::nullopt;
  const std::string word = without_blanks(small_letters(written));
  for (int unit = 0; unit < static_cast<int>(Unit::one); ++unit) {
    if (small_letters(ucum(static_cast<Unit>(unit))) == word) return static_cast<Unit>(unit);
  }
  for (const UnitWords& each : kSpelledOut) {
    if (!word.empty() && holds_word(each.words, word, " ")) return each.unit;
  }
  return std::nullopt;
}

std::string amount_meant_by(const std::string& written, const std::string& wanted) {
  const Written parts = written_from_text(written);
  const auto number = decimal_from_text(parts.number);
  const std::optional<Unit> unit = unit_spelled_out(parts.unit);
  if (!std::holds_alternative<Decimal>(number) || !unit || !holds_word(wanted, ucum(*unit), " ,")) return {};
  return text_from_quantity(Quantity{std::get<Decimal>(number), *unit});
}

}  // namespace rushlight
