#pragma once

#include <string>
#include <vector>

#include "measure/decimal.hpp"
#include "protocol/text.hpp"

// Private to engine/verify: how hard a text is to read.

namespace rushlight {

/// What the reading formulas count.
struct Passage {
  int words = 0, sentences = 0, syllables = 0;
  std::string longest_word{};  // most syllables
  int longest_word_syllables = 0;
  int longest_sentence = 0;  // in words
  friend Passage operator+(Passage a, const Passage& b);
};

/// A word is what stands between blanks and holds a letter or a digit; each digit is a syllable, and a blank of a text
/// (`{food}`) is one word of two: a short name or an amount. A sentence ends at . ! ? ; : and at the end of the text.
/// Source: Flesch, A new readability yardstick, J Appl Psychol 32:221, 1948; how he counts is from memory.
Passage passage_of(const Template& text, Language language);

/// The school grade of an English passage: 0.39 words a sentence + 11.8 syllables a word - 15.59. The passage is not
/// empty. Source: Kincaid, Fishburne, Rogers and Chissom, Derivation of new readability formulas for Navy enlisted
/// personnel, 1975.
Decimal english_grade(const Passage& passage);

/// The ease of a Spanish passage, 0 to 100 and a little beyond: 206.84 - 0.60 P - 1.02 F, where P is the syllables of a
/// hundred words and F the words of a sentence. The passage is not empty. Source: Fernández Huerta, Medidas sencillas
/// de lecturabilidad, Consigna 214:29, 1959. It is printed there, and often since, with F as the sentences of a hundred
/// words, by which short sentences would be harder to read; read as the words of a sentence it is Flesch's own formula
/// in Spanish (Gwillim Law, Error in the Fernandez Huerta readability formula, LINGUIST List 22.2332, 2011).
Decimal spanish_ease(const Passage& passage);

}  // namespace rushlight
