#pragma once

#include <algorithm>
#include <string>
#include <string_view>

#include "protocol/text.hpp"
#include "protocol/text_words.hpp"

// Private to engine/verify: what a text tells somebody to do, sentence by sentence, so that "nothing by mouth" and "do
// not give juice" are no orders.

namespace rushlight {

template <std::size_t kSize>
bool is_among(std::string_view word, const std::string_view (&list)[kSize]) {
  return std::find(std::begin(list), std::end(list), word) != std::end(list);
}

inline constexpr std::string_view kForbids[] = {"no",    "not",  "never", "nothing", "nobody", "without",
                                                "nunca", "nada", "sin",   "don't",   "cannot", "can't"};
/// "Nothing but juice": what follows is allowed all the same.
inline constexpr std::string_view kExcepts[] = {"but", "except", "only", "salvo", "excepto", "sino", "solo", "sólo"};

/// Whether `orders` holds of a sentence of the text in any language.
template <class Orders>
bool any_sentence(const Text& text, Orders orders) {
  constexpr std::string_view kEnds = ".:;!?";
  for (const Template& line : text.line) {
    std::string words;
    for (const Piece& piece : line) {
      const auto* part = std::get_if<std::string>(&piece);
      words += part != nullptr ? *part : " # ";
    }
    std::string_view rest = words;
    for (std::size_t end = 0; !rest.empty(); rest.remove_prefix(end)) {
      end = std::min(rest.find_first_of(kEnds), rest.size() - 1) + 1;
      if (orders(rest.substr(0, end))) return true;
    }
  }
  return false;
}

}  // namespace rushlight
