#pragma once

#include <optional>
#include <string>
#include <vector>

#include "read/source_map.hpp"

namespace rushlight::planted {

/// A part of a file, and what stands there instead.
struct Edit {
  Span span;
  std::string text;
};
using Edits = std::vector<Edit>;

/// A protocol file as elements with their bytes, for changing one thing and no other. Lines never move: what is taken
/// out leaves its line ends behind.
class Markup {
 public:
  using Element = std::size_t;

  /// The file must be well-formed.
  Markup(std::string file, std::string bytes);

  const std::string& file() const { return file_; }
  const std::string& bytes() const { return bytes_; }

  /// All of this name, in file order; or those inside an element, at any depth.
  std::vector<Element> all(std::string_view name) const;
  std::vector<Element> within(Element outer, std::string_view name) const;
  const std::string& name(Element element) const { return map_.elements[element].name; }
  std::optional<Element> parent(Element element) const { return map_.elements[element].parent; }
  /// The nearest element around this one, or itself, of this name.
  std::optional<Element> around(Element element, std::string_view name) const;

  bool has(Element element, std::string_view attribute) const;
  std::string value(Element element, std::string_view attribute) const;  // empty when it is not written
  std::string inner(Element element) const;                              // between the tags
  Span whole(Element element) const;
  std::uint32_t first_line(Element element) const;
  std::uint32_t last_line(Element element) const;

  Edit without(Element element) const;
  Edit without(Element element, std::string_view attribute) const;
  Edit with(Element element, std::string_view attribute, const std::string& value) const;  // added when it is not there
  Edit with_inner(Element element, const std::string& text) const;
  Edits swapped(Element one, Element other) const;

 private:
  const MappedAttribute* attribute(Element element, std::string_view name) const;

  std::string file_, bytes_;
  SourceMap map_;
};

/// The file with the edits made; they must not overlap.
std::string edited(const std::string& bytes, Edits edits);

std::vector<std::string> words_in(const std::string& list);
std::string list_of(const std::vector<std::string>& words);

}  // namespace rushlight::planted
