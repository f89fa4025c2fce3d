#pragma once

#include <string>
#include <vector>

#include "protocol/protocol.hpp"

// Private to engine/verify: what reads otherwise.

namespace rushlight {

/// Word for word, with the same numbers, doses and blanks by name.
bool reads_the_same(const Protocol& of_was, const Template& was, const Protocol& of_now, const Template& now);

/// Both texts in a language in which they are not the same; empty where one has none in it.
struct OtherWords {
  Language language;
  std::string was, now;
};

/// In the order of the languages. A child's family reads one of them alone, so a change in one is a change. What stands
/// for the same value under another id reads the same.
std::vector<OtherWords> other_words(const Protocol& of_was, const Text& was, const Protocol& of_now, const Text& now);

}  // namespace rushlight
