#include <algorithm>
#include <array>
#include <string_view>

#include "protocol/meanings.hpp"
#include "protocol/resolve_parts.hpp"
#include "protocol/text_words.hpp"

namespace rushlight {

namespace {

/// Whether `says` holds of a word of the text.
template <class Says>
bool any_word(std::string_view text, Says says) {
  bool found = false;
  each_word(text, [&](std::string_view word) {
    found = says(word);
    return !found;
  });
  return found;
}

template <std::size_t kSize>
bool is_one_of(std::string_view word, const std::array<std::string_view, kSize>& list) {
  return std::find(list.begin(), list.end(), word) != list.end();
}

constexpr std::array<std::string_view, 9> kNoInEnglish = {"no",   "not",     "never", "nothing", "nobody",
                                                          "none", "neither", "nor",   "cannot"};
constexpr std::array<std::string_view, 11> kNoInSpanish = {"no",     "nunca",  "nada", "nadie", "ninguno", "ninguna",
                                                           "ningún", "ningun", "ni",   "jamás", "tampoco"};
// "No meter" is "sin medidor", and "sugar-free" is "sin azúcar": these answer a no, and ask for none.
constexpr std::array<std::string_view, 9> kWithout = {"without", "free",  "hardly", "avoid", "skip",
                                                      "sin",     "evite", "eviten", "omita"};

// All of them begin like this; nearly no other word does.
bool may_say_no(std::string_view word) { return word[0] == 'n' || word[0] == 'c' || word[0] == 'j' || word[0] == 't'; }

bool says_no(std::string_view word, Language language) {
  if (language == Language::es) return may_say_no(word) && is_one_of(word, kNoInSpanish);
  const bool shortened = word.size() > 3 && word.substr(word.size() - 3) == "n't";
  return shortened || (may_say_no(word) && is_one_of(word, kNoInEnglish));
}

bool answers_no(std::string_view text, Language language) {
  return any_word(text, [&](std::string_view word) { return says_no(word, language) || is_one_of(word, kWithout); });
}

std::optional<std::string> no_in(std::string_view text, Language language) {
  std::optional<std::string> found;
  any_word(text, [&](std::string_view word) {
    if (says_no(word, language)) found = std::string(word);
    return found.has_value();
  });
  return found;
}

/// The one text in both languages.
struct Pair {
  const DraftText::Line *english = nullptr, *spanish = nullptr;

  const DraftText::Line& in(Language language) const { return language == Language::en ? *english : *spanish; }
};

Pair pair_of(const DraftText& draft) {
  Pair pair;
  for (const DraftText::Line& line : draft.lines) {
    const auto language = words::place_of(words::kLanguages, line.language.text);
    if (language) (static_cast<Language>(*language) == Language::en ? pair.english : pair.spanish) = &line;
  }
  return pair;
}

std::vector<std::string_view> sentences_of(std::string_view text) {
  std::vector<std::string_view> sentences;
  std::size_t from = 0;
  for (std::size_t at = 0; at < text.size(); ++at) {
    const bool ends = std::string_view(".!?;").find(text[at]) != std::string_view::npos &&
                      (at + 1 == text.size() || text[at + 1] == ' ');
    if (!ends && at + 1 < text.size()) continue;
    sentences.push_back(text.substr(from, at + 1 - from));
    from = at + 1;
  }
  return sentences;
}

/// A no of one sentence that the other has not, and does not say in another way: "do not leave" is "stay close".
std::optional<std::string> no_beyond(std::string_view text, Language language, std::string_view other_text,
                                     Language other) {
  auto word = no_in(text, language);
  if (!word || answers_no(other_text, other) || turns_the_no(text, language, other_text, other)) return std::nullopt;
  return word;
}

constexpr Language other_than(Language language) { return language == Language::en ? Language::es : Language::en; }

/// As many sentences with a no as the others can answer; then the order of the sentences may be another.
bool every_no_is_answered(const std::vector<std::string_view>& sentences, Language language,
                          const std::vector<std::string_view>& others) {
  const auto says = std::count_if(sentences.begin(), sentences.end(),
                                  [&](std::string_view each) { return no_in(each, language).has_value(); });
  const auto answers = std::count_if(others.begin(), others.end(),
                                     [&](std::string_view each) { return answers_no(each, other_than(language)); });
  return says <= answers;
}

std::optional<std::string> lost_no(std::string_view text, std::string_view other_text, Language language) {
  const Language other = other_than(language);
  if (!no_in(text, language)) return std::nullopt;
  const auto sentences = sentences_of(text), others = sentences_of(other_text);
  if (sentences.size() != others.size() || sentences.size() < 2) return no_beyond(text, language, other_text, other);
  if (every_no_is_answered(sentences, language, others)) return std::nullopt;
  for (std::size_t i = 0; i < sentences.size(); ++i) {
    if (auto word = no_beyond(sentences[i], language, others[i], other)) return word;
  }
  return std::nullopt;
}

std::optional<SaidApart> said_apart_in(std::string_view english, std::string_view spanish) {
  const auto sentences = sentences_of(english), others = sentences_of(spanish);
  const auto look = [](std::string_view here, std::string_view there) {
    return said_apart(here, there, no_in(here, Language::en).has_value() != no_in(there, Language::es).has_value());
  };
  if (sentences.size() != others.size()) return look(english, spanish);
  for (std::size_t i = 0; i < sentences.size(); ++i) {
    if (auto apart = look(sentences[i], others[i])) return apart;
  }
  return std::nullopt;
}

}  // namespace

// One of them forbids what the other tells to do, or they name two things. Notes are for the clinic and quote as they
// like.
void doubt_meanings(Resolver& resolver, const DraftText& draft, const char* element) {
  const Pair pair = pair_of(draft);
  if (std::string_view(element) == "note" || pair.english == nullptr || pair.spanish == nullptr) return;
  const std::string &english = pair.english->text.text, &spanish = pair.spanish->text.text;
  const auto doubt = [&](const Where& where, Kind kind, std::optional<Because> because) {
    resolver.findings.push_back(Finding{Severity::warning, where, std::move(kind), std::move(because)});
  };
  for (const Language language : {Language::en, Language::es}) {
    const DraftText::Line &says = pair.in(language), &lacks = pair.in(other_than(language));
    if (const auto word = lost_no(says.text.text, lacks.text.text, language))
      return doubt(lacks.text.where, NegationMissing{lacks.language.text, element, says.language.text, *word},
                   std::nullopt);
  }
  if (auto apart = said_apart_in(english, spanish))
    doubt(pair.english->text.where, LanguagesApart{element, std::move(apart->english), std::move(apart->spanish)},
          Because{"the other text", pair.spanish->text.where});
}

}  // namespace rushlight
