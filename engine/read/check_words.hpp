#pragma once

#include <vector>

#include "finding/finding.hpp"
#include "read/vocabulary.hpp"
#include "read/xml_tree.hpp"

namespace rushlight {

inline constexpr std::size_t kMostWordFindings = 200;  // a file with more is not a protocol with a few mistakes

/// Compares a file with the words of its kind (vocabulary.hpp): unknown, missing, repeated and misplaced elements,
/// unknown and missing attributes, words outside a closed list, ids that are not lower-case words with hyphens, text
/// where none belongs. What stands inside an unknown element is not looked into.
std::vector<Finding> word_findings(const XmlNode& root, const ElementWords& words);

/// The same file without the elements and attributes that have no place where they stand, for a draft that holds only
/// what was understood. The root must be of this shape; `findings` is what `word_findings` said of it.
XmlNode known_part_of(XmlNode root, const ElementWords& words, const std::vector<Finding>& findings);

}  // namespace rushlight
