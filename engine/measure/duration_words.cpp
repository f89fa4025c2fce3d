#include "measure/duration_words.hpp"

#include <array>

#include "measure/written.hpp"

namespace rushlight {
namespace {

struct UnitWord {
  std::string_view word;
  Unit unit;
};

// "m" is left out on purpose: it is the metre in UCUM, and some people mean months by it.
constexpr std::array<UnitWord, 27> kUnitWords = {{
    {"d", Unit::day},          {"day", Unit::day},         {"days", Unit::day},      {"dia", Unit::day},
    {"dias", Unit::day},       {"d\u00eda", Unit::day},    {"d\u00edas", Unit::day}, {"h", Unit::hour},
    {"hr", Unit::hour},        {"hrs", Unit::hour},        {"hour", Unit::hour},     {"hours", Unit::hour},
    {"hora", Unit::hour},      {"horas", Unit::hour},      {"min", Unit::minute},    {"mins", Unit::minute},
    {"minute", Unit::minute},  {"minutes", Unit::minute},  {"minuto", Unit::minute}, {"minutos", Unit::minute},
    {"s", Unit::second},       {"sec", Unit::second},      {"second", Unit::second}, {"seconds", Unit::second},
    {"segundo", Unit::second}, {"segundos", Unit::second}, {"secs", Unit::second},
}};

static_assert(Unit::second < Unit::minute && Unit::minute < Unit::hour && Unit::hour < Unit::day,
              "a longer time unit is a larger value: the order of the words is checked by it");

constexpr std::string_view kBlanks = " \t";
constexpr std::string_view kNumberCharacters = "0123456789.,+-";

std::optional<Unit> time_unit_from_word(std::string_view word) {
  const std::string small = small_letters(word);
  for (const UnitWord& row : kUnitWords) {
    if (row.word == small) return row.unit;
  }
  return std::nullopt;
}

// Takes the next run of characters that are (or are not) part of a number off the front of `rest`.
std::string_view next_run(std::string_view& rest, bool number) {
  const std::size_t first = rest.find_first_not_of(kBlanks);
  rest.remove_prefix(first == std::string_view::npos ? rest.size() : first);
  std::size_t end = number ? rest.find_first_not_of(kNumberCharacters) : rest.find_first_of(" \t0123456789");
  if (end == std::string_view::npos) end = rest.size();
  const std::string_view run = rest.substr(0, end);
  rest.remove_prefix(end);
  return run;
}

void skip_joining_word(std::string_view& rest) {
  std::string_view ahead = rest;
  const std::string word = small_letters(next_run(ahead, false));
  if ((word == "and" || word == "y") && !ahead.empty()) rest = ahead;
}

}  // namespace

std::variant<Duration, DurationRefusal> duration_from_words(std::string_view text, DecimalMark mark) {
  std::string_view rest = trimmed(text);
  if (rest.empty()) return DurationRefusal{DurationMistake::not_a_number, NumberMistake::empty, {}};

  Duration sum{0};
  std::optional<Unit> last;
  while (!rest.empty()) {
    if (last) skip_joining_word(rest);
    const std::string_view part = trimmed(rest);
    const std::string_view number = next_run(rest, true);
    const std::string_view word = next_run(rest, false);
    const auto refused = [&](DurationMistake mistake, std::optional<NumberMistake> why) {
      const bool to_the_end = mistake == DurationMistake::not_a_number;
      const std::size_t taken = part.size() - rest.size();
      return DurationRefusal{mistake, why, std::string(to_the_end ? part : part.substr(0, taken))};
    };
    const auto read = decimal_from_text(number, mark);
    if (const auto* wrong = std::get_if<NumberMistake>(&read)) {
      return refused(DurationMistake::not_a_number,
                     *wrong == NumberMistake::empty ? NumberMistake::not_a_number : *wrong);
    }
    const Decimal value = *std::get_if<Decimal>(&read);
    if (value < Decimal{}) return refused(DurationMistake::not_a_number, NumberMistake::not_a_number);
    if (word.empty()) return refused(DurationMistake::missing_unit, std::nullopt);
    const std::optional<Unit> unit = time_unit_from_word(word);
    if (!unit) return refused(DurationMistake::unknown_unit, std::nullopt);
    if (last && *unit >= *last) return refused(DurationMistake::out_of_order, std::nullopt);
    const std::optional<Duration> length = duration_from_quantity(Quantity{value, *unit});
    if (!length) {
      const bool whole = value.micros() % Decimal::kMicrosPerOne == 0;
      return refused(whole ? DurationMistake::too_long : DurationMistake::part_of_second, std::nullopt);
    }
    sum += *length;
    last = unit;
    rest = trimmed(rest);
  }
  return sum;
}

}  // namespace rushlight
