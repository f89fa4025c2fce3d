#pragma once

#include <string>
#include <vector>

#include "finding/finding.hpp"

namespace rushlight::tests {

/// One finding of a kind as it may occur, with the words a nurse reads: the golden table of the house's one voice.
/// An empty remedy means that nothing certain can be said.
struct Example {
  Kind kind;
  std::string id;
  std::string sentence;
  std::string remedy;
};

/// In the order of the kinds; at least one of each.
const std::vector<Example>& examples();

// Their parts about laws (examples_of_laws.cpp), about texts, and about what is changed and kept
// (examples_of_texts.cpp).
void add_laws(std::vector<Example>& rows);
void add_texts(std::vector<Example>& rows);
void add_sets(std::vector<Example>& rows);  // the files of a set beside each other (examples_of_sets.cpp)
void add_changes(std::vector<Example>& rows);
void add_journals(std::vector<Example>& rows);

}  // namespace rushlight::tests
