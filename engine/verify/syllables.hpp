#pragma once

#include <string_view>

// Private to engine/verify.

namespace rushlight {

/// How many syllables a word of English has, told from its letters: groups of vowels, without a silent e, with the
/// vowels that are spoken apart. English is not written as it is spoken; tests/verify holds it against the CMU
/// Pronouncing Dictionary. At least one. Letters only, in lower case.
int english_syllables(std::string_view word);

/// The same for Spanish, where letters tell all: strong vowels (a, e, o, and í, ú with an accent) make a syllable each,
/// weak ones (i, u, ü, y) lean on their neighbour; an h between vowels counts as nothing. Source: Real Academia
/// Española, Ortografía de la lengua española, 2010, diptongos e hiatos; from memory. UTF-8, in lower case.
int spanish_syllables(std::string_view word);

}  // namespace rushlight
