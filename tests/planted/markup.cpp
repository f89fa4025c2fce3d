#include "planted/markup.hpp"

#include <algorithm>
#include <sstream>
#include <stdexcept>

#include "read/vetted_bytes.hpp"

namespace rushlight::planted {

Markup::Markup(std::string file, std::string bytes) : file_(std::move(file)), bytes_(std::move(bytes)) {
  Read<VettedXml> vetted = vet_xml(bytes_, file_);
  if (!vetted.value) throw std::runtime_error(file_ + " is not well-formed");
  map_ = std::move(vetted.value->map);
}

std::vector<Markup::Element> Markup::all(std::string_view name) const {
  std::vector<Element> found;
  for (Element i = 0; i < map_.elements.size(); ++i) {
    if (map_.elements[i].name == name) found.push_back(i);
  }
  return found;
}

std::vector<Markup::Element> Markup::within(Element outer, std::string_view name) const {
  std::vector<Element> found;
  const Span span = whole(outer);
  for (Element i = outer + 1; i < map_.elements.size() && map_.elements[i].tag.begin < span.end; ++i) {
    if (map_.elements[i].name == name) found.push_back(i);
  }
  return found;
}

std::optional<Markup::Element> Markup::around(Element element, std::string_view name) const {
  std::optional<Element> at = element;
  while (at && map_.elements[*at].name != name) at = map_.elements[*at].parent;
  return at;
}

const MappedAttribute* Markup::attribute(Element element, std::string_view name) const {
  for (const MappedAttribute& each : map_.elements[element].attributes) {
    if (each.name == name) return &each;
  }
  return nullptr;
}

bool Markup::has(Element element, std::string_view name) const { return attribute(element, name) != nullptr; }

std::string Markup::value(Element element, std::string_view name) const {
  const MappedAttribute* found = attribute(element, name);
  return found == nullptr ? "" : bytes_.substr(found->value.begin, found->value.end - found->value.begin);
}

std::string Markup::inner(Element element) const {
  const Span content = map_.elements[element].content;
  return bytes_.substr(content.begin, content.end - content.begin);
}

Span Markup::whole(Element element) const {
  const MappedElement& one = map_.elements[element];
  if (bytes_[one.tag.end - 2] == '/') return one.tag;
  return Span{one.tag.begin, bytes_.find('>', one.content.end) + 1};
}

std::uint32_t Markup::first_line(Element element) const { return map_.elements[element].name_place.line; }

std::uint32_t Markup::last_line(Element element) const {
  const Span span = whole(element);
  const auto begin = bytes_.begin() + static_cast<std::ptrdiff_t>(span.begin);
  const auto end = bytes_.begin() + static_cast<std::ptrdiff_t>(span.end);
  return first_line(element) + static_cast<std::uint32_t>(std::count(begin, end, '\n'));
}

Edit Markup::without(Element element) const {
  const Span span = whole(element);
  return Edit{span, std::string(last_line(element) - first_line(element), '\n')};
}

Edit Markup::without(Element element, std::string_view name) const {
  const MappedAttribute* found = attribute(element, name);
  if (found == nullptr) throw std::runtime_error("nothing to take away");
  return Edit{Span{found->name_span.begin - 1, found->value.end + 1}, ""};
}

Edit Markup::with(Element element, std::string_view name, const std::string& text) const {
  if (const MappedAttribute* found = attribute(element, name)) return Edit{found->value, text};
  const std::size_t behind = map_.elements[element].name_span.end;
  return Edit{Span{behind, behind}, " " + std::string(name) + "=\"" + text + "\""};
}

Edit Markup::with_inner(Element element, const std::string& text) const {
  return Edit{map_.elements[element].content, text};
}

Edits Markup::swapped(Element one, Element other) const {
  const Span first = whole(one), second = whole(other);
  return {Edit{first, bytes_.substr(second.begin, second.end - second.begin)},
          Edit{second, bytes_.substr(first.begin, first.end - first.begin)}};
}

std::string edited(const std::string& bytes, Edits edits) {
  std::sort(edits.begin(), edits.end(), [](const Edit& a, const Edit& b) { return a.span.begin > b.span.begin; });
  std::string text = bytes;
  for (const Edit& edit : edits) text.replace(edit.span.begin, edit.span.end - edit.span.begin, edit.text);
  return text;
}

std::vector<std::string> words_in(const std::string& list) {
  std::istringstream in(list);
  std::vector<std::string> words;
  for (std::string word; in >> word;) words.push_back(word);
  return words;
}

std::string list_of(const std::vector<std::string>& words) {
  std::string list;
  for (const std::string& word : words) list += (list.empty() ? "" : " ") + word;
  return list;
}

}  // namespace rushlight::planted
