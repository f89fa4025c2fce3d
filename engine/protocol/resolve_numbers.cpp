#include "finding/number_words.hpp"
#include "protocol/resolve_parts.hpp"

namespace rushlight {

namespace {

// "g or mL"
std::string choice_of(std::initializer_list<Unit> units) {
  std::string text;
  std::size_t left = units.size();
  for (const Unit unit : units) {
    text += ucum(unit);
    if (--left > 0) text += left == 1 ? " or " : ", ";
  }
  return text;
}

bool one_of(Unit unit, std::initializer_list<Unit> allowed) {
  for (const Unit each : allowed) {
    if (each == unit) return true;
  }
  return false;
}

bool refuse_negative(Resolver& resolver, const Word& word, Decimal value) {
  if (value >= Decimal{}) return false;
  resolver.error(word.where, BadNumber{word.text, "no value of a protocol is below zero"});
  return true;
}

template <class Value>
std::optional<Limit> as_limit(const std::optional<Value>& value) {
  if (!value) return std::nullopt;
  return Limit{*value};
}

std::optional<int> count_from_word(Resolver& resolver, const Word& word) {
  const std::optional<Decimal> number = number_from_word(resolver, word, Unit::one);
  if (!number) return std::nullopt;
  if (number->micros() % Decimal::kMicrosPerOne != 0) {
    resolver.error(word.where, BadNumber{word.text, "a count is a whole number"});
    return std::nullopt;
  }
  return static_cast<int>(number->micros() / Decimal::kMicrosPerOne);
}

// A bare number that multiplies: 1.5.
std::optional<Quantity> factor_from_word(Resolver& resolver, const Word& word) {
  const std::optional<Decimal> number = number_from_word(resolver, word, Unit::one);
  if (!number) return std::nullopt;
  return Quantity{*number, Unit::one};
}

std::optional<Duration> duration_from_word(Resolver& resolver, const Word& word) {
  const auto quantity = quantity_from_word(resolver, word, {Unit::minute, Unit::second, Unit::hour, Unit::day});
  if (!quantity) return std::nullopt;
  const std::optional<Duration> duration = duration_from_quantity(*quantity);
  if (!duration) resolver.error(word.where, BadNumber{word.text, "a time is a whole number of seconds"});
  return duration;
}

}  // namespace

std::optional<Quantity> quantity_from_word(Resolver& resolver, const Word& word, std::initializer_list<Unit> allowed) {
  const auto read = quantity_from_text(word.text);
  if (const auto* mistake = std::get_if<QuantityMistake>(&read)) {
    switch (mistake->kind) {
      case QuantityMistake::Kind::number:
        resolver.error(word.where, bad_number(word.text, mistake->number.value_or(NumberMistake::not_a_number)));
        break;
      case QuantityMistake::Kind::missing_unit:
        resolver.error(word.where, MissingUnit{word.text, word.text + " " + std::string(ucum(*allowed.begin()))});
        break;
      case QuantityMistake::Kind::unknown_unit:
        resolver.error(word.where, WrongUnit{word.text, choice_of(allowed)});
        break;
    }
    return std::nullopt;
  }
  const Quantity& quantity = std::get<Quantity>(read);
  if (!one_of(quantity.unit, allowed)) {
    resolver.error(word.where, WrongUnit{word.text, choice_of(allowed)});
    return std::nullopt;
  }
  if (refuse_negative(resolver, word, quantity.value)) return std::nullopt;
  return quantity;
}

std::optional<Decimal> number_from_word(Resolver& resolver, const Word& word, Unit unit) {
  const auto read = decimal_from_text(word.text);
  if (const auto* mistake = std::get_if<NumberMistake>(&read)) {
    const auto with_unit = quantity_from_text(word.text);
    const auto* quantity = std::get_if<Quantity>(&with_unit);
    if (quantity != nullptr && quantity->unit == unit) {
      resolver.error(word.where, BadNumber{word.text, "the name before it already says the unit",
                                           "write `" + text_from_decimal(quantity->value) + "`"});
    } else {
      resolver.error(word.where, bad_number(word.text, *mistake));
    }
    return std::nullopt;
  }
  const Decimal value = std::get<Decimal>(read);
  if (refuse_negative(resolver, word, value)) return std::nullopt;
  return value;
}

std::optional<Age> age_from_word(Resolver& resolver, const Word& word) {
  const auto quantity = quantity_from_word(resolver, word, {Unit::year, Unit::month});
  if (!quantity) return std::nullopt;
  const std::optional<Age> age = age_from_quantity(*quantity);
  if (!age) resolver.error(word.where, BadNumber{word.text, "an age is a whole number of months or years"});
  return age;
}

std::optional<BodyWeight> weight_from_word(Resolver& resolver, const Word& word) {
  const auto quantity = quantity_from_word(resolver, word, {Unit::kilogram});
  if (!quantity) return std::nullopt;
  return BodyWeight{quantity->value, kKilogram};
}

std::optional<ClockTime> clock_from_word(Resolver& resolver, const Word& word) {
  const std::optional<ClockTime> time = clock_time_from_text(word.text);
  if (!time) resolver.error(word.where, BadNumber{word.text, "a clock time is written as HH:MM, from 00:00 to 23:59"});
  return time;
}

std::optional<Limit> limit_from_word(Resolver& resolver, ThresholdKind kind, const Word& word) {
  switch (kind) {
    case ThresholdKind::glucose:
      return std::nullopt;  // two words: see resolve_thresholds.cpp
    case ThresholdKind::ketones: {
      const auto quantity = quantity_from_word(resolver, word, {Unit::mmol_per_l});
      if (!quantity) return std::nullopt;
      return Limit{BloodKetones{quantity->value, kMillimolePerLitre}};
    }
    case ThresholdKind::time:
      return as_limit(duration_from_word(resolver, word));
    case ThresholdKind::count:
      return as_limit(count_from_word(resolver, word));
    case ThresholdKind::weight:
      return as_limit(weight_from_word(resolver, word));
    case ThresholdKind::age:
      return as_limit(age_from_word(resolver, word));
    case ThresholdKind::carbohydrate:
      return as_limit(quantity_from_word(resolver, word, {Unit::gram}));
    case ThresholdKind::carbohydrate_per_weight:
      return as_limit(quantity_from_word(resolver, word, {Unit::gram_per_kilogram}));
    case ThresholdKind::medicine:
      return as_limit(quantity_from_word(resolver, word, {Unit::milligram, Unit::microgram}));
    case ThresholdKind::content:
      return as_limit(quantity_from_word(resolver, word, {Unit::gram_per_100_gram, Unit::gram_per_100_ml}));
    case ThresholdKind::portion:
      return as_limit(quantity_from_word(resolver, word, {Unit::gram, Unit::millilitre}));
    case ThresholdKind::clock:
      return as_limit(clock_from_word(resolver, word));
    case ThresholdKind::percent:
      return as_limit(quantity_from_word(resolver, word, {Unit::percent}));
    case ThresholdKind::insulin:
      return as_limit(quantity_from_word(resolver, word, {Unit::insulin_unit}));
    case ThresholdKind::insulin_per_weight:
      return as_limit(quantity_from_word(resolver, word, {Unit::unit_per_kilogram}));
    case ThresholdKind::fluid_per_weight:
      return as_limit(quantity_from_word(resolver, word, {Unit::ml_per_kilogram}));
    case ThresholdKind::medicine_per_age:
      return as_limit(quantity_from_word(resolver, word, {Unit::microgram_per_year}));
    case ThresholdKind::factor:
      return as_limit(factor_from_word(resolver, word));
  }
  return std::nullopt;
}

}  // namespace rushlight
