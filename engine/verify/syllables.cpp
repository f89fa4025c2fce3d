#include "verify/syllables.hpp"

#include <algorithm>
#include <iterator>
#include <utility>

namespace rushlight {

namespace {

/// Words of everyday use that are not spoken as they are spelled, most of them put together from two.
constexpr std::pair<std::string_view, int> kSpokenOtherwise[] = {
    {"anyone", 3},    {"chocolate", 2},  {"clothes", 1},  {"diabetes", 4}, {"every", 2},     {"everybody", 4},
    {"everyone", 3},  {"everything", 3}, {"fluid", 2},    {"fluids", 2},   {"lying", 2},     {"people", 2},
    {"reassess", 3},  {"recipe", 3},     {"somebody", 3}, {"someone", 2},  {"something", 2}, {"sometimes", 2},
    {"somewhere", 2}, {"area", 3},       {"idea", 3},     {"science", 2},  {"being", 2},
};

bool is_vowel(char letter) { return std::string_view("aeiouy").find(letter) != std::string_view::npos; }
bool is_one_of(char letter, std::string_view letters) { return letters.find(letter) != std::string_view::npos; }

/// The letters before the end of a word; a blank before its beginning.
char from_end(std::string_view word, std::size_t place) {
  return place <= word.size() && place > 0 ? word[word.size() - place] : ' ';
}

int vowel_groups(std::string_view word) {
  int groups = 0;
  bool inside = false;
  for (const char letter : word) {
    if (is_vowel(letter) && !inside) ++groups;
    inside = is_vowel(letter);
  }
  return groups;
}

// "table" and "little" keep the e of their end, "tale" and "belle" do not.
bool ends_in_consonant_and_l(std::string_view stem) {
  const char before = from_end(stem, 2);
  return from_end(stem, 1) == 'l' && before != ' ' && !is_vowel(before) && before != 'l';
}

/// Whether the e of the end, of "-es" or of "-ed" is written and not spoken.
bool has_silent_e(std::string_view word) {
  if (word.size() > 2 && word.ends_with('e')) {
    const std::string_view stem = word.substr(0, word.size() - 1);
    return !is_vowel(from_end(stem, 1)) && !ends_in_consonant_and_l(stem);
  }
  if (word.size() < 4) return false;
  const std::string_view stem = word.substr(0, word.size() - 2);
  const char last = from_end(stem, 1);
  if (is_vowel(last) || ends_in_consonant_and_l(stem)) return false;
  if (word.ends_with("ed")) return !is_one_of(last, "td");
  return word.ends_with("es") && !is_one_of(last, "sxzcg") && !stem.ends_with("ch") && !stem.ends_with("sh");
}

/// "lonely", "helpful": a silent e before an ending.
bool has_silent_e_inside(std::string_view word) {
  for (const std::string_view ending :
       {"ly", "ful", "less", "ment", "ments", "ness", "times", "where", "thing", "one"}) {
    if (!word.ends_with(ending) || word.size() < ending.size() + 3) continue;
    const std::string_view stem = word.substr(0, word.size() - ending.size());
    if (from_end(stem, 1) == 'e' && !is_vowel(from_end(stem, 2)) && is_vowel(from_end(stem, 3))) return true;
  }
  return false;
}

/// Neighbouring vowels that are spoken apart: "di-al", "vi-olent", "us-ual", "go-ing", "di-et".
int spoken_apart(std::string_view word) {
  int apart = 0;
  for (std::size_t i = 0; i + 1 < word.size(); ++i) {
    const std::string_view pair = word.substr(i, 2);
    const std::string_view rest = word.substr(i + 2);
    const char before = i > 0 ? word[i - 1] : ' ';
    const bool soft = is_one_of(before, "cstg");  // "spe-cial", "na-tion"
    const bool found =
        (pair == "ia" && !soft && before != 'l' && !rest.starts_with("ge")) ||
        (pair == "io" && !soft && !rest.starts_with('n')) || pair == "iu" || (pair == "eo" && !rest.starts_with('u')) ||
        (pair == "ua" && !is_one_of(before, "qg") && !rest.starts_with('r')) ||
        (pair == "ie" && rest.starts_with('t')) ||
        (pair == "ea" && word.substr(0, i).ends_with("cr") && rest.starts_with('t') && !rest.starts_with("ture")) ||
        (is_one_of(pair[0], "aeiou") && pair[1] == 'i' && rest.starts_with("ng"));
    if (found) ++apart;
  }
  return apart;
}

enum class Sound { strong, weak, none };

/// The next letter of a Spanish word; `at` moves behind it.
Sound next_sound(std::string_view word, std::size_t& at) {
  const unsigned char first = static_cast<unsigned char>(word[at++]);
  if (first < 0x80) {
    const char letter = static_cast<char>(first);
    if (is_one_of(letter, "aeo")) return Sound::strong;
    return is_one_of(letter, "iu") ? Sound::weak : Sound::none;
  }
  const unsigned char second = at < word.size() ? static_cast<unsigned char>(word[at]) : 0;
  while (at < word.size() && (static_cast<unsigned char>(word[at]) & 0xC0U) == 0x80U) ++at;
  if (first != 0xC3) return Sound::none;
  constexpr unsigned char kAccented[] = {0xA1, 0xA9, 0xAD, 0xB3, 0xBA};  // á é í ó ú
  if (std::find(std::begin(kAccented), std::end(kAccented), second) != std::end(kAccented)) return Sound::strong;
  return second == 0xBC ? Sound::weak : Sound::none;  // ü
}

}  // namespace

int english_syllables(std::string_view word) {
  for (const auto& [other, syllables] : kSpokenOtherwise) {
    if (word == other) return syllables;
  }
  int syllables = vowel_groups(word);
  if (syllables > 1 && has_silent_e(word)) --syllables;
  if (syllables > 1 && has_silent_e_inside(word)) --syllables;
  syllables += spoken_apart(word);
  if (word.ends_with("sm") || word.ends_with("thm")) ++syllables;
  return std::max(syllables, 1);
}

int spanish_syllables(std::string_view word) {
  int syllables = 0, strong = 0;
  bool weak = false;
  const auto close = [&] {
    syllables += strong > 0 ? strong : weak ? 1 : 0;
    strong = 0;
    weak = false;
  };
  for (std::size_t at = 0; at < word.size();) {
    const bool final_y = word[at] == 'y' && at + 1 == word.size();
    const bool silent = word[at] == 'h';
    const Sound sound = next_sound(word, at);
    if (silent) continue;
    if (sound == Sound::strong) {
      ++strong;
    } else if (sound == Sound::weak || final_y) {
      weak = true;
    } else {
      close();
    }
  }
  close();
  return std::max(syllables, 1);
}

}  // namespace rushlight
