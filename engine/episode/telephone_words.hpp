#pragma once

#include <string>

#include "episode/scene.hpp"

namespace rushlight {

// The lines of for_the_telephone that are made of words and no readings.

/// "Type 1 diabetes: low, and vomits the sugar. Wrong insulin was given": what the call that was asked for last says,
/// then each sign of something worse that is true now. In an emergency the signs alone, where there is one: they are
/// what is seen, and the text of the call stands for several.
std::string why_somebody_calls(const Scene& scene, Language language);

/// Name, age, weight, how insulin is given and how much a day, and the rescue medicine at home.
std::string child_in_one_line(const Scene& scene, Language language);

/// What was answered about the child, the gravest first, then what is half an hour old, with the time of the oldest of
/// it. Empty when nothing was.
std::string answers_in_one_line(const Scene& scene, Language language);

}  // namespace rushlight
