#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace rushlight {

// The words of a protocol file, in one place: the reader checks files by this table, and a test compares
// protocols/protocol.xsd with it word by word. docs/protocol-format.md says what each of them means.

/// What the value of an attribute may be, as far as it can be told without looking anything up.
enum class ValueRule {
  any,         // an id of something else, a quantity, words for people
  id,          // names this element: lower-case words joined by hyphens
  one_of,      // one word of a closed list
  several_of,  // one or more words of a closed list, with blanks between them
};

struct AttributeWords {
  std::string_view name;
  bool required;
  ValueRule rule;
  std::vector<std::string> allowed;
};

inline constexpr std::size_t kAnyNumber = 0;

struct ChildWords {
  std::string_view name;
  std::string_view shape;  // the ElementWords it is read by
  std::size_t least;
  std::size_t most;      // or kAnyNumber
  bool beside_previous;  // may stand before or after the one above it in the table
};

/// The shape of an element. Several elements may have one shape, and one name may have two shapes (`rule`, `ask`,
/// `glucose`), depending on where it stands. Shapes carry the names of the XSD's types.
struct ElementWords {
  std::string_view shape;
  std::vector<AttributeWords> attributes;
  std::vector<ChildWords> children;  // in this order, unless in_any_order
  bool in_any_order;
  bool holds_text;
};

/// Every shape; the first is that of `<protocol>`.
const std::vector<ElementWords>& vocabulary();

/// The words of safety.xml, and protocols/safety.xsd; its sources and conditions have the shapes of a protocol's. The
/// first is that of `<safety>`.
const std::vector<ElementWords>& safety_vocabulary();

/// The words of examples.xml, and protocols/examples.xsd. The first is that of `<examples>`.
const std::vector<ElementWords>& examples_vocabulary();

/// The shape of this name. The name must be in one of the tables.
const ElementWords& words_of(std::string_view shape);

}  // namespace rushlight
