#include "verify/reading.hpp"

#include <algorithm>

#include "verify/syllables.hpp"

namespace rushlight {

namespace {

constexpr char kBlank = '\x01';  // what the episode fills
constexpr int kSyllablesOfABlank = 2;

bool is_space(char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r'; }
bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || static_cast<unsigned char>(c) == 0xC3;
}
bool goes_on(char c) { return is_letter(c) || (static_cast<unsigned char>(c) & 0xC0U) == 0x80U || c == '\''; }

std::string in_one_piece(const Template& text) {
  std::string line;
  for (const Piece& piece : text) {
    if (const auto* words = std::get_if<std::string>(&piece)) {
      line += *words;
    } else {
      line += kBlank;
    }
  }
  return line;
}

// Of the letters that texts here use: a capital of the second half of Latin-1 lies 0x20 below its small letter.
std::string lower_case(std::string_view word) {
  std::string lower;
  for (std::size_t i = 0; i < word.size(); ++i) {
    const char c = word[i];
    const bool accented = i > 0 && static_cast<unsigned char>(word[i - 1]) == 0xC3;
    if (c == '\'') continue;
    if (c >= 'A' && c <= 'Z') {
      lower += static_cast<char>(c - 'A' + 'a');
    } else if (accented && static_cast<unsigned char>(c) < 0xA0) {
      lower += static_cast<char>(c + 0x20);
    } else {
      lower += c;
    }
  }
  return lower;
}

int syllables_in(std::string_view token, Language language) {
  int syllables = 0;
  for (std::size_t at = 0; at < token.size();) {
    if (token[at] == kBlank) {
      syllables += kSyllablesOfABlank;
      ++at;
    } else if (is_digit(token[at])) {
      ++syllables;
      ++at;
    } else if (is_letter(token[at])) {
      std::size_t end = at + 1;
      while (end < token.size() && goes_on(token[end])) ++end;
      const std::string word = lower_case(token.substr(at, end - at));
      syllables += language == Language::en ? english_syllables(word) : spanish_syllables(word);
      at = end;
    } else {
      ++at;
    }
  }
  return syllables;
}

bool ends_a_sentence(std::string_view token) {
  const std::size_t last = token.find_last_not_of("\"')");
  return last != std::string_view::npos && std::string_view(".!?;:").find(token[last]) != std::string_view::npos;
}

}  // namespace

Passage operator+(Passage a, const Passage& b) {
  a.words += b.words;
  a.sentences += b.sentences;
  a.syllables += b.syllables;
  if (b.longest_word_syllables > a.longest_word_syllables) {
    a.longest_word = b.longest_word;
    a.longest_word_syllables = b.longest_word_syllables;
  }
  a.longest_sentence = std::max(a.longest_sentence, b.longest_sentence);
  return a;
}

Passage passage_of(const Template& text, Language language) {
  const std::string line = in_one_piece(text);
  Passage passage;
  int in_sentence = 0;
  const auto close = [&] {
    if (in_sentence == 0) return;
    ++passage.sentences;
    passage.longest_sentence = std::max(passage.longest_sentence, in_sentence);
    in_sentence = 0;
  };
  for (std::size_t at = 0; at < line.size();) {
    if (is_space(line[at])) {
      ++at;
      continue;
    }
    std::size_t end = at;
    while (end < line.size() && !is_space(line[end])) ++end;
    const std::string_view token = std::string_view(line).substr(at, end - at);
    const int syllables = syllables_in(token, language);
    if (syllables > 0) {
      ++passage.words;
      ++in_sentence;
      passage.syllables += syllables;
      const bool is_word = token.find(kBlank) == std::string_view::npos;
      if (is_word && syllables > passage.longest_word_syllables) {
        const std::size_t last = token.find_last_not_of(".,!?;:\"')");
        passage.longest_word = token.substr(0, last + 1);
        passage.longest_word_syllables = syllables;
      }
    }
    if (ends_a_sentence(token)) close();
    at = end;
  }
  close();
  return passage;
}

namespace {

Decimal per(int many, int few) { return quotient(Decimal::whole(many), Decimal::whole(few)); }

constexpr Decimal hundredths(std::int64_t number) { return Decimal::of_micros(number * 10'000); }

}  // namespace

Decimal english_grade(const Passage& passage) {
  return product(hundredths(39), per(passage.words, passage.sentences)) +
         product(hundredths(1180), per(passage.syllables, passage.words)) - hundredths(1559);
}

Decimal spanish_ease(const Passage& passage) {
  return hundredths(20684) - product(hundredths(6000), per(passage.syllables, passage.words)) -
         product(hundredths(102), per(passage.words, passage.sentences));
}

}  // namespace rushlight
