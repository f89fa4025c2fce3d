#include "read/stated_value.hpp"

#include <array>
#include <utility>
#include <vector>

#include "finding/number_words.hpp"
#include "finding/unit_words.hpp"
#include "measure/duration_words.hpp"
#include "measure/quantity.hpp"
#include "measure/written.hpp"
#include "read/xml_characters.hpp"

namespace rushlight {

namespace {

struct Reader {
  const Where& where;
  NumberStyle style;
  std::vector<Finding> findings{};

  void error(Kind kind) { findings.push_back({Severity::error, where, std::move(kind), std::nullopt}); }

  // Three digits behind a mark may be thousandths or thousands. In front of thousands no zero stands alone.
  bool may_be_thousands(std::string_view number, std::size_t mark) const {
    return number.size() - mark == 4 && number.substr(0, mark) != "0";
  }

  /// The number with a point for its decimal mark.
  std::string with_point(std::string_view number, std::string_view whole) {
    std::string text(number);
    const std::size_t mark = text.find_first_of(".,");
    if (mark == std::string::npos || text.find_first_of(".,", mark + 1) != std::string::npos) return text;
    const bool comma = text[mark] == ',';
    if ((comma || style == NumberStyle::comma) && may_be_thousands(number, mark)) {
      const std::string point = text.substr(0, mark) + "." + text.substr(mark + 1);
      std::string fewer = point;
      while (fewer.back() == '0') fewer.pop_back();
      if (fewer.back() == '.') fewer.pop_back();
      error(BadNumber{std::string(whole), "it may be thousands or thousandths",
                      "write `" + fewer + "` or `" + text.substr(0, mark) + text.substr(mark + 1) + "`"});
      return text;
    }
    if (comma) text[mark] = '.';
    return text;
  }
};

std::optional<Unit> unit_of_words(std::string_view words) {
  if (words.empty()) return std::nullopt;
  const std::optional<Unit> exact = unit_from_ucum(words);
  return exact ? exact : unit_spelled_out(words);
}

// "7O": a letter that is taken for a digit is a wrong number, not a wrong unit.
bool is_digit_lookalike(const Written& written, std::string_view text) {
  constexpr std::string_view kLookalikes = "OolISB";
  const bool glued = written.number.size() < text.size() && written.unit.data() == text.data() + written.number.size();
  return glued && written.unit.size() == 1 && kLookalikes.find(written.unit.front()) != std::string_view::npos;
}

std::string one_place(Decimal value) {
  const std::string text = text_from_decimal(value);
  return text.find('.') == std::string::npos ? text + ".0" : text;
}

struct GlucosePart {
  std::string number;
  GlucoseUnit unit;
};

constexpr std::array<std::pair<std::string_view, GlucoseUnit>, 2> kGlucoseUnits = {
    {{"mg/dl", GlucoseUnit::mg_per_dl}, {"mmol/l", GlucoseUnit::mmol_per_l}}};

/// Cuts "66 mg/dL" off the front of "66 mg/dL, 3.7 mmol/L". Empty: no unit stands there.
std::optional<std::pair<std::string_view, GlucoseUnit>> cut_part(std::string_view& rest) {
  const std::string small = small_letters(rest);
  std::size_t at = std::string::npos, size = 0;
  GlucoseUnit unit{};
  for (const auto& [word, its_unit] : kGlucoseUnits) {
    const std::size_t found = small.find(word);
    if (found >= at) continue;
    at = found;
    size = word.size();
    unit = its_unit;
  }
  if (at == std::string::npos) return std::nullopt;
  const std::string_view number = trimmed(rest.substr(0, at));
  rest = trimmed(rest.substr(at + size));
  if (!rest.empty() && (rest.front() == ',' || rest.front() == ';' || rest.front() == '/')) rest.remove_prefix(1);
  rest = trimmed(rest);
  return std::pair{number, unit};
}

void refuse_without_unit(Reader& reader, std::string_view text) {
  const Written written = written_from_text(text);
  const std::string whole(text);
  const std::string number = reader.with_point(written.number, whole);
  if (!reader.findings.empty()) return;
  const auto read = decimal_from_text(number);
  if (const auto* mistake = std::get_if<NumberMistake>(&read)) return reader.error(bad_number(whole, *mistake));
  if (is_digit_lookalike(written, text)) return reader.error(bad_number(whole, NumberMistake::not_a_number));
  if (!written.unit.empty()) return reader.error(WrongUnit{whole, "mg/dL or mmol/L"});
  const bool in_mg = std::get<Decimal>(read) >= meter_range(GlucoseUnit::mg_per_dl).least;
  reader.error(MissingUnit{whole, number + " " + std::string(ucum(in_mg ? Unit::mg_per_dl : Unit::mmol_per_l))});
}

std::size_t another_number_at(std::string_view number) {
  for (std::size_t at = number.find_first_of(",;"); at != std::string_view::npos;
       at = number.find_first_of(",;", at + 1)) {
    if (number[at] == ';' || (at + 1 < number.size() && number[at + 1] == ' ')) return at;
  }
  return std::string_view::npos;
}

/// What no meter shows in this unit, and one does in the other: converted it would be out of every range, and nobody
/// would know what was meant.
void refuse_of_other_unit(Reader& reader, Decimal value, GlucoseUnit unit) {
  const bool in_mg = unit == GlucoseUnit::mg_per_dl;
  const GlucoseUnit other = in_mg ? GlucoseUnit::mmol_per_l : GlucoseUnit::mg_per_dl;
  const auto shows = [&](const MeterRange& range) { return range.least <= value && value <= range.most; };
  if (shows(meter_range(unit)) || !shows(meter_range(other))) return;
  const std::string number = text_from_decimal(value), of(ucum(unit_of(unit))), of_other(ucum(unit_of(other)));
  reader.error(BadNumber{number + " " + of, "no meter shows so " + std::string(in_mg ? "little" : "much") + " in " + of,
                         "if " + of_other + " is meant, write `" + number + " " + of_other + "`"});
}

StatedValue stated_glucose(Reader& reader, std::string_view text) {
  std::optional<std::string> mg, mmol;
  std::string_view rest = trimmed(text);
  do {
    const auto part = cut_part(rest);
    if (!part) {
      refuse_without_unit(reader, rest);
      return {};
    }
    const auto& [number, unit] = *part;
    // "66, 3.7 mmol/L": the first number lacks its unit, and the whole is no number.
    if (const std::size_t end = another_number_at(number); end != std::string_view::npos) {
      refuse_without_unit(reader, trimmed(number.substr(0, end)));
      return {};
    }
    std::optional<std::string>& value = unit == GlucoseUnit::mg_per_dl ? mg : mmol;
    if (value) reader.error(RepeatedKey{std::string(ucum(unit_of(unit)))});
    value = reader.with_point(number, text);
    const auto read = decimal_from_text(*value);
    const auto* mistake = std::get_if<NumberMistake>(&read);
    if (mistake && reader.findings.empty()) reader.error(bad_number(std::string(number), *mistake));
    if (reader.findings.empty()) refuse_of_other_unit(reader, std::get<Decimal>(read), unit);
    if (!reader.findings.empty()) return {};
  } while (!rest.empty());
  StatedValue stated;
  if (!mmol) {
    stated.proposed = GlucoseUnit::mmol_per_l;
    mmol = one_place(other_value(std::get<Decimal>(decimal_from_text(*mg)), GlucoseUnit::mg_per_dl));
  } else if (!mg) {
    stated.proposed = GlucoseUnit::mg_per_dl;
    mg = text_from_decimal(other_value(std::get<Decimal>(decimal_from_text(*mmol)), GlucoseUnit::mmol_per_l));
  }
  stated.words.mg_dl = *mg;
  stated.words.mmol_l = *mmol;
  return stated;
}

bool is_digit(char c) { return c >= '0' && c <= '9'; }

// A table of numbers makes "9:30" of 09:30 and "22:00:00" of 22:00.
std::string clock_words(std::string_view text) {
  std::string clock(text);
  const std::size_t colon = clock.find(':');
  if (colon == 1 && is_digit(clock.front())) clock.insert(0, "0");
  if (clock.size() == 8 && clock.compare(5, 3, ":00") == 0) clock.resize(5);
  return clock_time_from_text(clock) ? clock : std::string(text);
}

std::string amount_words(Reader& reader, ThresholdKind kind, std::string_view text) {
  const Written written = written_from_text(text);
  const std::string number = reader.with_point(written.number, text);
  const std::optional<Unit> unit = unit_of_words(written.unit);
  if (!unit && kind == ThresholdKind::time) {
    const auto read = duration_from_words(text, DecimalMark::point_or_comma);
    if (const auto* duration = std::get_if<Duration>(&read)) return text_from_duration(*duration);
  }
  if (!unit && is_digit_lookalike(written, text))
    reader.error(bad_number(std::string(text), NumberMistake::not_a_number));
  const bool as_it_is = number == written.number && (!unit || ucum(*unit) == written.unit);
  if (as_it_is || !unit) return written.unit.empty() ? number : std::string(text);
  return number + " " + std::string(ucum(*unit));
}

}  // namespace

Read<StatedValue> stated_value(ThresholdKind kind, std::string_view text, const Where& where, NumberStyle style) {
  Reader reader{where, style};
  text = trimmed(text);
  // A spreadsheet puts one between a number and its unit, and nobody sees it.
  if (auto blank = foreign_blank_in(std::string(text))) {
    reader.error(std::move(blank->kind));
    return {std::nullopt, std::move(reader.findings)};
  }
  StatedValue stated;
  switch (kind) {
    case ThresholdKind::glucose:
      stated = stated_glucose(reader, text);
      break;
    case ThresholdKind::clock:
      stated.words.value = clock_words(text);
      break;
    case ThresholdKind::count:
    case ThresholdKind::factor:
      stated.words.value = reader.with_point(text, text);
      break;
    default:
      stated.words.value = amount_words(reader, kind, text);
  }
  if (!reader.findings.empty()) return {std::nullopt, std::move(reader.findings)};
  return {std::move(stated), {}};
}

}  // namespace rushlight
