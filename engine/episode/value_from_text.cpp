#include "episode/value_from_text.hpp"

#include "finding/number_words.hpp"
#include "measure/ketones.hpp"
#include "measure/quantity.hpp"
#include "measure/written.hpp"

namespace rushlight {
namespace {

using Answer = std::variant<Value, Kind>;

const char* const kUnknown = "unknown";
const char* const kNone = "none";

// More than this in a few hours is a slip of the finger: 33 for 3. Common practice, no source.
constexpr int kLargestCount = 99;
// A time since is asked about the last day; a week is as far as an answer can sensibly reach. Common practice, no
// source.
constexpr std::chrono::hours kLongestAgo{7 * 24};

bool is_strip_word(const std::string& text) {
  return text == "negative" || text == "trace" || text == "small" || text == "moderate" || text == "large";
}

// A wrong unit, or no number at all: in "7O" and "1e2" what stands behind the digits was never meant as a unit.
Kind wrong_unit_or_number(const std::string& text, const char* wanted) {
  const std::string unit(written_from_text(text).unit);
  const bool run_together = text.find_first_of(" \t") == std::string::npos;
  const bool is_unit = unit.find('/') != std::string::npos || unit_from_ucum(unit).has_value();
  if (run_together && !is_unit) return bad_number(text, NumberMistake::not_a_number);
  return WrongUnit{text, wanted};
}

Answer option_from(const std::string& text, const Fact& fact) {
  std::vector<std::string> allowed;
  for (std::size_t i = 0; i < fact.options.size(); ++i) {
    if (fact.options[i].name == text) return Value{Chosen{static_cast<std::uint16_t>(i)}};
    allowed.push_back(fact.options[i].name);
  }
  allowed.push_back(kUnknown);
  return WrongWord{text, "answer to `" + fact.name + "`", allowed};
}

Answer count_from(const std::string& text, const Fact& fact) {
  const auto number = decimal_from_text(text);
  if (const auto* mistake = std::get_if<NumberMistake>(&number)) return bad_number(text, *mistake);
  const std::int64_t micros = std::get<Decimal>(number).micros();
  if (micros % Decimal::kMicrosPerOne != 0) return BadNumber{text, "a count is whole"};
  const std::int64_t count = micros / Decimal::kMicrosPerOne;
  if (count < 0 || count > kLargestCount) return OutOfRange{fact.name, text, "0", std::to_string(kLargestCount)};
  return Value{Count{static_cast<int>(count)}};
}

std::string with_unit(Decimal value, GlucoseUnit unit) { return text_from_quantity(Quantity{value, unit_of(unit)}); }

Answer glucose_from(const std::string& text, const Fact& fact, GlucoseUnit usual, DecimalMark mark) {
  const auto reading = glucose_from_text(text, usual, mark);
  if (const auto* glucose = std::get_if<Glucose>(&reading)) return Value{*glucose};
  if (is_strip_word(text)) {
    return WrongUse{"`" + text + "` is a word of a urine ketone strip, and `" + fact.name + "` asks for glucose",
                    "answer `urine-ketones` with it"};
  }
  const auto& refusal = std::get<GlucoseRefusal>(reading);
  switch (refusal.mistake) {
    case GlucoseMistake::not_a_number:
      return bad_number(text, refusal.number.value_or(NumberMistake::not_a_number));
    case GlucoseMistake::unknown_unit:
      return wrong_unit_or_number(text, "mg/dL or mmol/L");
    case GlucoseMistake::other_unit_likely:
      return ImplausibleValue{fact.name, text, "is it mg/dL or mmol/L? look at the meter and give the unit"};
    case GlucoseMistake::beyond_meter:
      break;
  }
  const MeterRange range = meter_range(refusal.unit);
  const auto typed = quantity_from_text(text, mark);
  const auto* quantity = std::get_if<Quantity>(&typed);
  if (refusal.unit == GlucoseUnit::mmol_per_l && quantity != nullptr && quantity->value >= Decimal{} &&
      quantity->value < range.least) {
    return ImplausibleValue{fact.name, text,
                            "no meter shows so little; is it a blood ketone reading? then answer `ketones`"};
  }
  return OutOfRange{fact.name, text, with_unit(range.least, refusal.unit), with_unit(range.most, refusal.unit)};
}

Answer ketones_from(const std::string& text, const Fact& fact, DecimalMark mark) {
  const auto reading = ketones_from_text(text, mark);
  if (const auto* ketones = std::get_if<KetoneReading>(&reading)) {
    return Value{*ketones};
  }
  if (is_strip_word(text)) {
    return WrongUse{
        "`" + text + "` is a word of a urine strip, and `" + fact.name + "` asks for the number of a blood meter",
        "answer `urine-ketones` with it, or give a number like `1.2 mmol/L`"};
  }
  const auto& refusal = std::get<KetoneRefusal>(reading);
  switch (refusal.mistake) {
    case KetoneMistake::not_a_number:
      return bad_number(text, refusal.number.value_or(NumberMistake::not_a_number));
    case KetoneMistake::unknown_unit:
      return wrong_unit_or_number(text, "mmol/L");
    case KetoneMistake::other_unit_likely:
      return ImplausibleValue{fact.name, text, "is it a glucose reading? then answer `glucose`"};
    case KetoneMistake::beyond_meter:
      break;
  }
  return OutOfRange{fact.name, text, "0 mmol/L", text_from_quantity(largest_ketones_shown().quantity())};
}

Answer ago_from(const std::string& text, const Fact& fact, DecimalMark mark) {
  if (text == kNone) return Value{NotLately{}};
  const auto typed = quantity_from_text(text, mark);
  if (const auto* mistake = std::get_if<QuantityMistake>(&typed)) {
    switch (mistake->kind) {
      case QuantityMistake::Kind::number:
        return bad_number(text, mistake->number.value_or(NumberMistake::not_a_number));
      case QuantityMistake::Kind::missing_unit:
        return MissingUnit{text, text + " min"};
      case QuantityMistake::Kind::unknown_unit:
        return wrong_unit_or_number(text, "min, h or d");
    }
  }
  const OutOfRange outside{fact.name, text, "0 min", text_from_duration(kLongestAgo)};
  if (std::get<Quantity>(typed).value < Decimal{}) return outside;
  const auto duration = duration_from_quantity(std::get<Quantity>(typed));
  if (!duration) return WrongUnit{text, "min, h or d"};
  if (*duration > kLongestAgo) return outside;
  return Value{Ago{*duration}};
}

}  // namespace

std::variant<Value, Kind> value_from_text(const std::string& text, const Fact& fact, GlucoseUnit usual,
                                          DecimalMark mark) {
  if (text == kUnknown) return Value{CantTell{}};
  switch (fact.kind) {
    case FactKind::choice:
    case FactKind::ordered_choice:
      return option_from(text, fact);
    case FactKind::count:
      return count_from(text, fact);
    case FactKind::glucose:
      return glucose_from(text, fact, usual, mark);
    case FactKind::ketones:
      return ketones_from(text, fact, mark);
    case FactKind::time_since:
      return ago_from(text, fact, mark);
    case FactKind::age:
    case FactKind::weight:
    case FactKind::insulin:
      break;
  }
  return WrongUse{"`" + fact.name + "` comes from the child file and is never asked", "change it in the child file"};
}

std::string text_from_value(const Value& value, const Fact& fact) {
  struct Writer {
    const Fact& asked;
    std::string operator()(const CantTell&) const { return kUnknown; }
    std::string operator()(const Chosen& chosen) const {
      return chosen.option < asked.options.size() ? asked.options[chosen.option].name : kUnknown;
    }
    std::string operator()(const Count& count) const { return std::to_string(count.number); }
    std::string operator()(const Glucose& reading) const { return text_from_glucose(reading); }
    std::string operator()(const KetoneReading& ketones) const { return text_from_ketones(ketones); }
    std::string operator()(const Ago& ago) const { return text_from_duration(ago.time); }
    std::string operator()(const NotLately&) const { return kNone; }
    std::string operator()(const Age& age) const { return text_from_age(age); }
    std::string operator()(const BodyWeight& weight) const { return text_from_quantity(weight.quantity()); }
    std::string operator()(const InsulinDose& dose) const { return text_from_quantity(dose.quantity()); }
  };
  return std::visit(Writer{fact}, value);
}

}  // namespace rushlight
