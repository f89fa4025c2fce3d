#include <algorithm>

#include "planted/operators.hpp"

// Slips in the texts.

namespace rushlight::planted {
namespace {

std::string owner_of(const Markup& file, Markup::Element text) {
  for (std::optional<Markup::Element> at = file.parent(text); at; at = file.parent(*at)) {
    if (file.has(*at, "id")) return "`" + file.value(*at, "id") + "`";
  }
  return "`protocol`";
}

std::vector<Fault> translation_missing(const Markup& file) {
  std::vector<Fault> faults;
  for (const char* language : {"en", "es"}) {
    for (const Markup::Element text : file.all(language))
      faults.push_back(Fault{
          {file.without(text)}, *file.parent(text), "no `" + std::string(language) + "` in " + owner_of(file, text)});
  }
  return faults;
}

std::vector<Fault> text_emptied(const Markup& file) {
  std::vector<Fault> faults;
  for (const Markup::Element text : file.all("es"))
    faults.push_back(Fault{{file.with_inner(text, " ")}, text, "an empty `es` in " + owner_of(file, text)});
  return faults;
}

template <class Change>
std::vector<Fault> each_blank(const Markup& file, const Change& change, const char* words) {
  std::vector<Fault> faults;
  for (const char* language : {"en", "es"}) {
    for (const Markup::Element text : file.all(language)) {
      const std::string inner = file.inner(text);
      const std::size_t open = inner.find('{'), close = inner.find('}');
      if (open == std::string::npos || close == std::string::npos) continue;
      const std::string blank = inner.substr(open, close + 1 - open);
      if (blank == "{child}" && change(blank).find('{') == std::string::npos) continue;  // a language may do without the name
      faults.push_back(Fault{{file.with_inner(text, inner.substr(0, open) + change(blank) + inner.substr(close + 1))},
                             text,
                             "`" + blank + "` " + words + " in " + owner_of(file, text)});
    }
  }
  return faults;
}

std::vector<Fault> blank_misspelt(const Markup& file) {
  return each_blank(
      file,
      [](std::string blank) {
        std::swap(blank[1], blank[2]);
        return blank;
      },
      "misspelt");
}

std::vector<Fault> blank_dropped(const Markup& file) {
  return each_blank(
      file, [](const std::string&) { return std::string("it"); }, "dropped in one language");
}

std::vector<Fault> brace_missing(const Markup& file) {
  return each_blank(
      file, [](const std::string& blank) { return blank.substr(0, blank.size() - 1); }, "not closed");
}

}  // namespace

std::vector<Operator> text_operators() {
  return {
      {"translation-missing", "a text has no words in one language", {"missing-language"}, translation_missing},
      {"text-emptied", "a text is empty in one language", {"empty-text"}, text_emptied},
      {"blank-misspelt", "a blank is misspelt", {"unknown-placeholder"}, blank_misspelt},
      {"blank-dropped", "a blank is dropped in one language", {"placeholder-missing"}, blank_dropped},
      {"brace-missing", "a blank is not closed", {"bad-placeholder"}, brace_missing},
  };
}

std::vector<Operator> all_operators() {
  std::vector<Operator> all;
  for (auto list : {rule_operators(), night_operators(), danger_operators(), number_operators(), dose_operators(),
                    text_operators(), set_operators()})
    all.insert(all.end(), list.begin(), list.end());
  return all;
}

}  // namespace rushlight::planted
