#include "cli/answers.hpp"

#include <algorithm>

#include "cli/keys.hpp"
#include "cli/plain_text.hpp"
#include "cli/say.hpp"
#include "measure/duration_words.hpp"
#include "measure/ketones.hpp"
#include "measure/written.hpp"

namespace rushlight {
namespace {

using Answer = std::variant<Value, std::string>;

constexpr int kMostCounted = 99;  // a larger number of times is a slip of the finger

DecimalMark mark_of(Language language) {
  return language == Language::es ? DecimalMark::point_or_comma : DecimalMark::point;
}

/// The place of "yes" or "no" where these are the two answers, whatever their order and their words.
std::optional<std::size_t> place_of_yes_no(const ShownQuestion& question, bool yes) {
  if (question.choices.size() != 2) return std::nullopt;
  const bool yes_first = question.choices[0].name == "yes" && question.choices[1].name == "no";
  const bool no_first = question.choices[0].name == "no" && question.choices[1].name == "yes";
  if (!yes_first && !no_first) return std::nullopt;
  return yes == yes_first ? 0U : 1U;
}

Answer choice_from_text(const ShownQuestion& question, std::string_view typed, Language language) {
  const auto chosen = [](std::size_t place) { return Value{Chosen{static_cast<std::uint16_t>(place)}}; };
  if (const std::optional<int> number = number_from_text(typed)) {
    if (static_cast<std::size_t>(*number) <= question.choices.size())
      return chosen(static_cast<std::size_t>(*number) - 1);
  }
  if (const std::optional<bool> yes = yes_no_from_text(typed)) {
    if (const std::optional<std::size_t> place = place_of_yes_no(question, *yes)) return chosen(*place);
  }
  for (std::size_t place = 0; place < question.choices.size(); ++place) {
    if (folded_letters(trimmed(typed)) == folded_letters(question.choices[place].text)) return chosen(place);
  }
  return say(kOnlyOneOf, language, std::to_string(question.choices.size()));
}

std::string like_the_meter(GlucoseUnit unit) { return unit == GlucoseUnit::mg_per_dl ? "52" : "2.9"; }

// "4.2 mg" and "4,2 mmol" are what a hurried hand types for the two units.
std::string with_whole_unit(std::string_view typed) {
  const std::string text = small_letters(trimmed(typed));
  const Written written = written_from_text(text);
  const bool short_form = written.unit == "mg" || written.unit == "mmol";
  if (!short_form) return text;
  return std::string(written.number) + (written.unit == "mg" ? " mg/dL" : " mmol/L");
}

Answer glucose_answer(std::string_view typed, const AnswerSetting& setting) {
  const Language language = setting.language;
  const auto read = glucose_from_text(with_whole_unit(typed), setting.unit, mark_of(language));
  if (const auto* reading = std::get_if<Glucose>(&read)) return Value{*reading};
  const auto& refusal = std::get<GlucoseRefusal>(read);
  switch (refusal.mistake) {
    case GlucoseMistake::not_a_number:
    case GlucoseMistake::unknown_unit:
      break;
    case GlucoseMistake::other_unit_likely:
      return say(refusal.unit == GlucoseUnit::mg_per_dl ? kNotMgPerDl : kNotMmolPerL, language,
                 std::string(written_from_text(trimmed(typed)).number));
    case GlucoseMistake::beyond_meter:
      return say(kBeyondMeter, language, std::string(trimmed(typed)));
  }
  const std::string text(trimmed(typed));
  if (refusal.number == NumberMistake::comma_not_point) {
    // The example is the number itself: any other would be typed by a tired hand.
    std::string with_point = text;
    std::replace(with_point.begin(), with_point.end(), ',', '.');
    return say(kPointNotComma, language, text, with_point);
  }
  return say(kNotANumber, language, text, like_the_meter(setting.unit));
}

Answer ketones_answer(std::string_view typed, Language language) {
  const auto read = ketones_from_text(typed, mark_of(language));
  const std::string text(trimmed(typed));
  if (const auto* reading = std::get_if<KetoneReading>(&read)) return Value{*reading};
  switch (std::get<KetoneRefusal>(read).mistake) {
    case KetoneMistake::not_a_number:
      return say(kNotANumber, language, text, "0.6");
    case KetoneMistake::unknown_unit:
      return say(kNotANumber, language, text, "0.6");
    case KetoneMistake::other_unit_likely:
      return say(kKetonesOtherUnit, language, text);
    case KetoneMistake::beyond_meter:
      return say(kKetonesBeyond, language, text);
  }
  return say(kNotANumber, language, text, "0.6");
}

Answer count_answer(std::string_view typed, Language language) {
  const auto read = decimal_from_text(trimmed(typed));
  const auto* number = std::get_if<Decimal>(&read);
  const bool counts = number != nullptr && number->micros() % Decimal::kMicrosPerOne == 0 && *number >= Decimal{} &&
                      *number <= Decimal::whole(kMostCounted);
  if (!counts) return say(kCountLike, language);
  return Value{Count{static_cast<int>(number->micros() / Decimal::kMicrosPerOne)}};
}

Answer ago_answer(std::string_view typed, Language language) {
  const std::optional<bool> yes = yes_no_from_text(typed);
  if ((yes && !*yes) || folded_letters(trimmed(typed)) == "none") return Value{NotLately{}};
  const auto read = duration_from_words(trimmed(typed), mark_of(language));
  if (const auto* time = std::get_if<Duration>(&read)) {
    if (*time > std::chrono::hours{24 * 7}) return say(kAgoLike, language);  // a slip: "400 h" for 40 min
    if (*time > std::chrono::hours{24}) return Value{NotLately{}};
    return Value{Ago{*time}};
  }
  const bool bare = std::get<DurationRefusal>(read).mistake == DurationMistake::missing_unit;
  return bare ? say(kMinutesOrHours, language, std::string(trimmed(typed))) : say(kAgoLike, language);
}

}  // namespace

bool is_choice(const ShownQuestion& question) {
  return question.kind == FactKind::choice || question.kind == FactKind::ordered_choice;
}

bool is_reading(FactKind kind) { return kind == FactKind::glucose || kind == FactKind::ketones; }

bool is_very_high(const Glucose& reading) { return reading.number() && compare(reading, kTypedTwiceFrom) >= 0; }

bool is_typed_twice(const Value& value, GlucoseUnit usual) {
  const auto* reading = std::get_if<Glucose>(&value);
  return reading != nullptr && (is_very_high(*reading) || (reading->number() && reading->unit() != usual));
}

std::variant<Value, std::string> answer_from_text(const ShownQuestion& question, std::string_view typed,
                                                  const AnswerSetting& setting) {
  switch (question.kind) {
    case FactKind::choice:
    case FactKind::ordered_choice:
      return choice_from_text(question, typed, setting.language);
    case FactKind::count:
      return count_answer(typed, setting.language);
    case FactKind::glucose:
      return glucose_answer(typed, setting);
    case FactKind::ketones:
      return ketones_answer(typed, setting.language);
    case FactKind::time_since:
      return ago_answer(typed, setting.language);
    case FactKind::age:
    case FactKind::weight:
    case FactKind::insulin:
      break;  // from the child file: nobody is asked
  }
  return say(kNoQuestion, setting.language);
}

std::string text_from_answer(const ShownQuestion& question, const Value& value, const AnswerSetting& setting) {
  const Language language = setting.language;
  if (const auto* chosen = std::get_if<Chosen>(&value)) {
    return chosen->option < question.choices.size() ? question.choices[chosen->option].text : "";
  }
  if (const auto* count = std::get_if<Count>(&value)) return std::to_string(count->number);
  if (const auto* glucose = std::get_if<Glucose>(&value)) return text_from_glucose(*glucose);
  if (const auto* ketones = std::get_if<KetoneReading>(&value)) return text_from_ketones(*ketones);
  if (const auto* ago = std::get_if<Ago>(&value)) {
    const Moment then = shown_at_offset(setting.now.utc - ago->time, setting.now.offset);
    return say(kAgo, language, text_from_duration(ago->time), text_from_clock_time(clock_time_of(then)));
  }
  if (std::holds_alternative<NotLately>(value)) return say(kNotInTheLastDay, language);
  return say(kCantTellChoice, language);
}

std::string how_to_answer(const ShownQuestion& question, Language language) {
  switch (question.kind) {
    case FactKind::glucose:
      return say(kTellGlucose, language);
    case FactKind::ketones:
      return say(kTellKetones, language);
    case FactKind::count:
      return say(kTellCount, language);
    case FactKind::time_since:
      return say(kTellAgo, language);
    default:
      return say(kTellChoice, language);
  }
}

}  // namespace rushlight
