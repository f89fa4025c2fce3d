#pragma once

#include <string>

#include "episode/event.hpp"
#include "protocol/protocol.hpp"

namespace rushlight {

// What stands in a protocol, or is told to it, in the words of its file: ids as they are, values as people write them.

/// "glucose below 54 mg/dL or 3.0 mmol/L (`very-low`)", "awake: no or can't tell", "`low-treatments` counted 3 times".
std::string in_words(const Protocol& protocol, const Condition& condition);

/// All of them, joined by "and"; "always" when there are none.
std::string in_words(const Protocol& protocol, const Conditions& conditions);

/// All of them sorted, so that those of two rules or files can be compared; empty when there are none.
std::string in_one_order(const Protocol& protocol, const Conditions& conditions);

/// "glucose 53 mg/dL", "awake: yes", "symptoms: can't tell", "sugar-when 14 min".
std::string in_words(const Protocol& protocol, FactId fact, const Value& value);

/// "awake: yes, already-given: no"; "something got worse: awake: no"; "sugar refused"; "clinic: no-answer"; "time
/// passes".
std::string in_words(const Protocol& protocol, const Event& event);

/// The text as it stands in the file, its thresholds with their value: "Measure again in {again}."
std::string as_written(const Protocol& protocol, const Text& text, Language language = Language::en);

/// One line of a text with the names of all its blanks, thresholds too.
std::string text_by_names(const Protocol& protocol, const Template& line);

/// A threshold's value, in both units for a glucose: "70 mg/dL = 3.9 mmol/L"; with bands each of them.
std::string value_words(const Protocol& protocol, ThresholdId threshold);

}  // namespace rushlight
