#pragma once

#include <string>
#include <string_view>
#include <variant>

#include "episode/value.hpp"
#include "episode/view.hpp"

namespace rushlight {

/// What an answer is read against.
struct AnswerSetting {
  Language language;
  GlucoseUnit unit;  // of the child's meter
  Moment now;
};

/// From here up a slip of the finger ("520" for "52") is likelier than the number: it is typed a second time before it
/// counts. Common practice, no source; the mmol/L value is the mg/dL one as a meter would print it.
inline constexpr GlucoseLimit kTypedTwiceFrom{Decimal::whole(400), Decimal::of_micros(22'200'000)};

/// A number from kTypedTwiceFrom up. HI is no number: nobody types it by a slip.
bool is_very_high(const Glucose& reading);

/// A very high number; or one in the unit that is not `usual`: 5 for 50, then the other unit, makes a low pass for
/// none.
bool is_typed_twice(const Value& value, GlucoseUnit usual);

/// The answer that was typed to a question, or one kind sentence that says what to type instead. Never guesses a unit:
/// "4.2" for a meter in mg/dL and "2" for a time are asked about. "3,9" is 3.9 in a language whose decimal mark is the
/// comma. The key for "can't tell" is not looked at here.
std::variant<Value, std::string> answer_from_text(const ShownQuestion& question, std::string_view typed,
                                                  const AnswerSetting& setting);

/// An answer as it is shown back: "2.9 mmol/L", "Wakes and talks", "40 min ago, at 01:30".
std::string text_from_answer(const ShownQuestion& question, const Value& value, const AnswerSetting& setting);

/// One line that says what to type.
std::string how_to_answer(const ShownQuestion& question, Language language);

/// Whether the question is answered by picking a line.
bool is_choice(const ShownQuestion& question);

/// Whether the question is answered with what a meter shows.
bool is_reading(FactKind kind);

}  // namespace rushlight
