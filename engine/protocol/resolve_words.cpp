#include "protocol/resolve_parts.hpp"

namespace rushlight {

namespace {

bool is_blank(char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r'; }

// Continuation bytes do not start a code point, and columns count code points.
bool starts_code_point(char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }

}  // namespace

std::vector<Word> split(const Word& word) {
  std::vector<Word> parts;
  std::uint32_t column = word.where.column;
  bool inside = false;
  for (const char c : word.text) {
    if (is_blank(c)) {
      inside = false;
    } else {
      if (!inside) parts.push_back(Word{"", Where{word.where.file, word.where.line, column, 0}});
      inside = true;
      parts.back().text += c;
      if (starts_code_point(c)) ++parts.back().where.length;
    }
    if (starts_code_point(c)) ++column;
  }
  return parts;
}

const Word* needed(Resolver& resolver, const MaybeWord& word, const char* attribute, const char* element,
                   const Where& where) {
  if (word) return &*word;
  resolver.error(where, MissingAttribute{attribute, element});
  return nullptr;
}

std::optional<std::size_t> place_in_words(Resolver& resolver, const Word& word, const char* what,
                                          const std::vector<std::string>& allowed) {
  for (std::size_t i = 0; i < allowed.size(); ++i) {
    if (allowed[i] == word.text) return i;
  }
  resolver.error(word.where, WrongWord{word.text, what, allowed});
  return std::nullopt;
}

bool is_yes(Resolver& resolver, const MaybeWord& word, const char* attribute) {
  if (!word) return false;
  return place_in_words(resolver, *word, attribute, {"yes", "no"}) == std::size_t{0};
}

void refuse(Resolver& resolver, const MaybeWord& word, const char* attribute, const std::string& element,
            std::vector<std::string> allowed) {
  if (word) resolver.error(word->where, UnknownAttribute{attribute, element, std::move(allowed)});
}

}  // namespace rushlight
