#include "cli/language.hpp"

#include <cstdlib>
#include <string_view>

#include "protocol/words.hpp"
#include "wire/json_tree.hpp"

namespace rushlight {

std::optional<Language> language_named(const std::string& word) {
  const auto place = words::place_of(words::kLanguages, word);
  if (!place) return std::nullopt;
  return static_cast<Language>(*place);
}

Language language_of_machine() {
  for (const char* variable : {"LC_ALL", "LC_MESSAGES", "LANG"}) {
    const char* value = std::getenv(variable);
    if (value == nullptr || *value == '\0') continue;
    return std::string_view(value).starts_with("es") ? Language::es : Language::en;
  }
  return Language::en;
}

std::optional<Language> language_in_child_file(const std::string& bytes) {
  const Read<JsonNode> tree = json_from_text(bytes, "", kChildLimits);
  if (!tree.value || tree.value->kind != JsonNode::Kind::object) return std::nullopt;
  const JsonNode* language = tree.value->find("language");
  return language == nullptr ? std::nullopt : language_named(language->text);
}

}  // namespace rushlight
