#include <algorithm>
#include <utility>

#include "protocol/other_language.hpp"
#include "protocol/resolve_parts.hpp"

namespace rushlight {

namespace {

bool is_blank_text(const std::string& text) { return text.find_first_not_of(" \t\r\n") == std::string::npos; }

std::uint32_t code_points_in(std::string_view text) {
  std::uint32_t count = 0;
  for (const char c : text) {
    if ((static_cast<unsigned char>(c) & 0xC0U) != 0x80U) ++count;
  }
  return count;
}

}  // namespace

Where part_of(const Word& text, std::size_t from, std::size_t length) {
  Where where = text.where;
  const bool exact = text.text.find('\n') == std::string::npos && where.length == code_points_in(text.text);
  if (!exact) return where;
  where.column += code_points_in(std::string_view(text.text).substr(0, from));
  where.length = code_points_in(std::string_view(text.text).substr(from, length));
  return where;
}

namespace {

std::vector<std::string> known_blanks(const Resolver& resolver) {
  std::vector<std::string> known = words::all_of(words::kFillers);
  for (const Names* names : {&resolver.thresholds, &resolver.doses}) {
    for (const std::string& name : names->names) {
      if (!name.empty()) known.push_back(name);
    }
  }
  return known;
}

std::optional<Piece> blank_named(Resolver& resolver, const std::string& name) {
  if (const auto filler = words::place_of(words::kFillers, name)) return Piece{static_cast<Filler>(*filler)};
  if (const auto threshold = resolver.thresholds.use(name)) return Piece{ThresholdId{*threshold}};
  if (const auto dose = resolver.doses.use(name)) return Piece{DoseId{*dose}};
  return std::nullopt;
}

Template template_from(Resolver& resolver, const Word& word, std::vector<std::string>& blanks) {
  Template pieces;
  const std::string& text = word.text;
  std::size_t at = 0;
  while (at < text.size()) {
    const std::size_t brace = text.find_first_of("{}", at);
    if (brace != at) pieces.push_back(text.substr(at, brace == std::string::npos ? brace : brace - at));
    if (brace == std::string::npos) break;
    const std::size_t end = text.find_first_of("{}", brace + 1);
    if (text[brace] == '}' || end == std::string::npos || text[end] == '{' || end == brace + 1) {
      const std::size_t length =
          end == std::string::npos || text[brace] == '}' ? 1 : end - brace + (text[end] == '}' ? 1 : 0);
      resolver.error(part_of(word, brace, length), BadPlaceholder{text.substr(brace, length)});
      at = brace + length;
      continue;
    }
    const std::string name = text.substr(brace + 1, end - brace - 1);
    if (const auto piece = blank_named(resolver, name)) {
      pieces.push_back(*piece);
      blanks.push_back(name);
    } else {
      resolver.error(part_of(word, brace + 1, name.size()), UnknownPlaceholder{name, known_blanks(resolver)});
    }
    at = end + 1;
  }
  return pieces;
}

struct Blanks {
  Word language;
  Where where;
  std::vector<std::string> names;

  bool hold(const std::string& name) const { return std::find(names.begin(), names.end(), name) != names.end(); }
};

// A blank that one language lacks is an amount or a time that its readers are not told. The child's name is neither:
// "Can {child} swallow?" is "¿Puede tragar?".
void compare_blanks(Resolver& resolver, const std::vector<Blanks>& lines) {
  for (const Blanks& line : lines) {
    std::vector<std::string> told;
    for (const Blanks& other : lines) {
      for (const std::string& name : other.names) {
        const bool is_the_child = name == words::kFillers[static_cast<std::size_t>(Filler::child)];
        if (is_the_child || line.hold(name) || std::find(told.begin(), told.end(), name) != told.end()) continue;
        told.push_back(name);
        resolver.error(line.where, PlaceholderMissing{name, line.language.text, other.language.text});
      }
    }
  }
}

bool declares(const Resolver& resolver, Language language) {
  const auto& languages = resolver.protocol.languages;
  return std::find(languages.begin(), languages.end(), language) != languages.end();
}

std::vector<std::string> declared_names(const Resolver& resolver) {
  std::vector<std::string> names;
  for (const Language language : resolver.protocol.languages) {
    names.emplace_back(words::kLanguages[static_cast<std::size_t>(language)]);
  }
  return names;
}

void refuse_unfilled(Resolver& resolver, const DraftText& draft, Filler filler, const std::string& why,
                     const std::string& right) {
  const std::string name(words::kFillers[static_cast<std::size_t>(filler)]);
  refuse_blank(resolver, draft, filler, BlankUnfilled{name, why, right});
}

bool has_question(const Resolver& resolver, std::string_view kind) {
  return std::any_of(resolver.draft.facts.begin(), resolver.draft.facts.end(),
                     [&](const DraftFact& fact) { return fact.kind.text == kind; });
}

bool has_gram_dose(const Resolver& resolver) {
  return std::any_of(resolver.draft.doses.begin(), resolver.draft.doses.end(),
                     [](const DraftDose& dose) { return dose.unit && dose.unit->text == "g"; });
}

/// Blanks of what this file never knows.
void refuse_never_filled(Resolver& resolver, const DraftText& draft) {
  if (!resolver.draft.fluids) {
    for (const Filler filler : {Filler::drunk, Filler::fluid_goal})
      refuse_unfilled(resolver, draft, filler, "the file has no `<fluids>`", "add `<fluids hourly=\"...\"/>`");
  }
  if (!has_question(resolver, "glucose"))
    refuse_unfilled(resolver, draft, Filler::glucose, "no question asks for a glucose",
                    "add a `<glucose>` to `<facts>`");
  if (!has_question(resolver, "ketones") && !has_question(resolver, "ordered-choice"))
    refuse_unfilled(resolver, draft, Filler::ketones, "no question asks for ketones", "add a `<ketones>` to `<facts>`");
  if (!has_gram_dose(resolver)) {
    for (const Filler filler : {Filler::food, Filler::other_foods})
      refuse_unfilled(resolver, draft, filler, "no dose is in grams", "add a `<dose>` in g");
  }
}

/// Two texts in each other's place would be read to half of the families in words that they do not know.
void doubt_languages(Resolver& resolver, const DraftText& draft, const char* element) {
  for (const DraftText::Line& line : draft.lines) {
    const auto place = words::place_of(words::kLanguages, line.language.text);
    if (!place) continue;
    const auto beside = std::find_if(draft.lines.begin(), draft.lines.end(), [&](const DraftText::Line& other) {
      return other.language.text != line.language.text;
    });
    const std::string_view other =
        beside == draft.lines.end() ? std::string_view{} : std::string_view(beside->text.text);
    if (!is_in_other_language(line.text.text, static_cast<Language>(*place), other)) continue;
    const std::string_view likely = words::kLanguages[1 - *place];
    resolver.findings.push_back(Finding{Severity::warning, line.text.where,
                                        OtherLanguage{line.language.text, element, std::string(likely)}, std::nullopt});
  }
}

// The texts of a step are shown in that step only; all others may be shown where no wait runs.
bool stands_in_a_step(std::string_view element) { return element == "headline" || element == "do"; }

}  // namespace

void resolve_languages(Resolver& resolver) {
  const Draft& draft = resolver.draft;
  const Word* languages = needed(resolver, draft.languages, "languages", "protocol", draft.where);
  if (languages == nullptr) return;
  for (const Word& word : split(*languages)) {
    const auto place = place_in_words(resolver, word, "language", words::all_of(words::kLanguages));
    if (!place) continue;
    const auto language = static_cast<Language>(*place);
    if (declares(resolver, language)) {
      resolver.error(word.where, RepeatedId{word.text, "language"});
      continue;
    }
    resolver.protocol.languages.push_back(language);
  }
  if (split(*languages).empty())
    resolver.error(languages->where, WrongWord{"", "language", words::all_of(words::kLanguages)});
}

Text text_from(Resolver& resolver, const DraftText& draft, const char* element, const Where& parent) {
  Text text;
  const Where& where = draft.where.line == 0 ? parent : draft.where;
  std::array<bool, kLanguages> seen{};
  std::vector<Blanks> blanks;
  const std::size_t found_before = resolver.findings.size();
  for (const DraftText::Line& line : draft.lines) {
    const auto place = words::place_of(words::kLanguages, line.language.text);
    if (!place || !declares(resolver, static_cast<Language>(*place))) {
      // An unreadable list of languages is told once, not at every text.
      if (resolver.protocol.languages.empty()) continue;
      if (place && std::exchange(resolver.told_undeclared[*place], true)) continue;  // nor one that it lacks
      resolver.error(line.language.where, UnknownElement{line.language.text, element, declared_names(resolver)});
      continue;
    }
    if (seen[*place]) resolver.error(line.language.where, RepeatedElement{line.language.text, element});
    seen[*place] = true;
    const Where& here = line.text.where.line == 0 ? line.language.where : line.text.where;
    if (is_blank_text(line.text.text)) resolver.error(here, EmptyText{line.language.text, element});
    blanks.push_back(Blanks{line.language, here, {}});
    text.line[*place] = template_from(resolver, line.text, blanks.back().names);
  }
  for (const Language language : resolver.protocol.languages) {
    const auto place = static_cast<std::size_t>(language);
    if (!seen[place]) resolver.error(where, MissingLanguage{std::string(words::kLanguages[place]), element});
  }
  if (resolver.findings.size() == found_before) compare_blanks(resolver, blanks);
  doubt_languages(resolver, draft, element);
  doubt_text(resolver, draft, element);
  if (!stands_in_a_step(element)) {
    refuse_blank(resolver, draft, Filler::until, UntilWithoutWait{"", "until"});
    refuse_blank(resolver, draft, Filler::again, UntilWithoutWait{"", "again"});
  }
  refuse_never_filled(resolver, draft);
  return text;
}

void refuse_blank(Resolver& resolver, const DraftText& draft, Filler filler, const Kind& kind) {
  const std::string blank = "{" + std::string(words::kFillers[static_cast<std::size_t>(filler)]) + "}";
  for (const DraftText::Line& line : draft.lines) {
    const std::size_t at = line.text.text.find(blank);
    if (at != std::string::npos) resolver.error(part_of(line.text, at, blank.size()), kind);
  }
}

}  // namespace rushlight
