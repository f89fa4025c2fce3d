#pragma once

#include <string_view>
#include <vector>

#include "finding/finding.hpp"
#include "protocol/draft.hpp"
#include "read/vetted_bytes.hpp"

namespace rushlight {

/// Values and texts have their entities resolved, blanks at the ends removed and runs of blanks made one.
struct XmlAttribute {
  Word name, value;
};

/// An element with the place of every word. `text` is all its own text; `texts` are its pieces, if there are several,
/// between which comments or child elements stand.
struct XmlNode {
  Word name;
  std::vector<XmlAttribute> attributes;
  Word text;
  std::vector<Word> texts;
  std::vector<XmlNode> children;

  /// The value of an attribute, if it is written.
  MaybeWord value_of(std::string_view attribute) const;
  /// The first child of this name; nullptr when there is none.
  const XmlNode* child(std::string_view child_name) const;
};

/// The tree as the tree library reads it, with places from the source map. The two readings are compared element by
/// element and attribute by attribute; a file in which they differ is refused.
Read<XmlNode> tree_from_vetted(const VettedXml& xml);

}  // namespace rushlight
