#pragma once

#include <string>
#include <vector>

#include "cli/numbers_set.hpp"

namespace rushlight {

// A clinic's numbers in words that a nurse reads, and types: whatever stands here is understood again by stated_value.

/// "15 min", "6 years", "0.5 units", "10 g in 100 mL" of what a file holds as "15 min", "6 a", "10 g/(100.mL)". The
/// digits stay as they are written.
std::string amount_shown(const std::string& written, Language language);

/// The same in two: "15" and "min". A clock time and a bare number have no unit.
struct AmountWords {
  std::string number, unit;
};
AmountWords amount_words(const std::string& written, Language language);

/// "70 mg/dL" and "3.9 mmol/L"; one line for everything else.
std::vector<std::string> value_lines(const ValueWords& words, Language language);
/// The same with a comma between.
std::string value_shown(const ValueWords& words, Language language);

/// "under 6 years", "from 6 to under 12 years", "from 22:00 to 06:00".
std::string band_shown(const Band& band, Language language);

/// What a clinic may choose: "60 to 100 mg/dL" and "3.3 to 5.6 mmol/L". Of several files the narrowest.
std::vector<std::string> range_lines(const NumbersSet& set, const Number& number, Language language);

/// Of several files with ranges of their own the one with the highest `least` and the one with the lowest `most`.
struct Narrowest {
  const Threshold *least, *most;
};
Narrowest narrowest(const NumbersSet& set, const Number& number);

/// The smallest and the largest value, each as it is typed.
struct Border {
  std::string least, most;
};
Border border_of(const NumbersSet& set, const Number& number, Language language);

/// The sources of a number, each once: as they are cited, or only who printed them and when.
enum class Citation : bool { whole, brief };
std::string sources_shown(const NumbersSet& set, const Number& number, Citation form, Language language);

/// "low.xml:57, ketones.xml:38": where a value stands. With `whole` each with its folder.
std::string places_shown(const NumbersSet& set, const std::vector<NumberPlace>& places, std::size_t band, bool whole);

/// "illness, ketones and low".
std::string protocols_shown(const NumbersSet& set, const std::vector<NumberPlace>& places, Language language);

}  // namespace rushlight
