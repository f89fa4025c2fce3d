#pragma once

#include <string>
#include <vector>

#include "picture/picture.hpp"
#include "verify/decisions.hpp"
#include "verify/in_words.hpp"

namespace rushlight {

// What a picture calls things: the words of the protocol's file, so that a nurse finds them there.

std::string name_of(const Protocol& protocol, const Subject& subject);

/// The question behind it, or what it is: "counter". Empty when its name says enough.
std::string meaning_of(const Protocol& protocol, const Subject& subject);

/// Values of an axis from the first to the last, next to each other.
struct Stretched {
  std::size_t first, last;
};

/// "54 to below 70 mg/dL" and "3.0 to below 3.9 mmol/L"; an option with its text; "can't tell".
std::vector<std::string> words_of(const Protocol& protocol, const Axis& axis, const Stretched& values,
                                  bool mg_per_dl_alone);

/// "glucose" or "glucose, symptoms and awake".
std::string listed(const Protocol& protocol, const std::vector<Subject>& subjects);

/// "CALL THE CLINIC NOW".
std::string word_for(Urgency urgency);

/// "LESS IS DONE": how the newer of two versions stands to the older, in the words of `compare`.
std::string word_for(Decided::Beside beside);

/// How an area of this urgency looks: graver is a heavier border and a closer hatching.
Area area_of(Urgency urgency);

}  // namespace rushlight
