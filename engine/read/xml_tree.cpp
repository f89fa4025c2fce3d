#include "read/xml_tree.hpp"

#include <tinyxml2.h>

#include <algorithm>
#include <optional>
#include <string>
#include <utility>

#include "read/xml_characters.hpp"

namespace rushlight {

namespace {

/// Walks the library's tree and the map side by side.
class Pairing {
 public:
  explicit Pairing(const VettedXml& xml) : xml_(xml) {}

  /// False when the two do not say the same.
  bool pair(const tinyxml2::XMLElement& element, XmlNode& node) {
    const std::size_t own = next_++;
    if (own >= xml_.map.elements.size()) return false;
    const MappedElement& mapped = xml_.map.elements[own];
    if (mapped.name != element.Name()) return false;
    node.name = {mapped.name, where(mapped.name_place)};
    node.text.where = node.name.where;
    if (!pair_attributes(element, mapped, node) || !pair_texts(element, mapped, node)) return false;
    std::size_t children = 0;
    for (const auto* child = element.FirstChildElement(); child; child = child->NextSiblingElement()) ++children;
    node.children.resize(children);  // each is made in its place: moving them took longer than making them
    const tinyxml2::XMLElement* child = element.FirstChildElement();
    for (XmlNode& each : node.children) {
      if (next_ >= xml_.map.elements.size() || xml_.map.elements[next_].parent != own || !pair(*child, each))
        return false;
      child = child->NextSiblingElement();
    }
    return true;
  }

  bool all_paired() const { return next_ == xml_.map.elements.size(); }

 private:
  Where where(const Place& place) const { return where_of(place, xml_.file_name); }

  bool pair_attributes(const tinyxml2::XMLElement& element, const MappedElement& mapped, XmlNode& node) const {
    const tinyxml2::XMLAttribute* attribute = element.FirstAttribute();
    node.attributes.reserve(mapped.attributes.size());
    for (const MappedAttribute& place : mapped.attributes) {
      if (!attribute || place.name != attribute->Name()) return false;
      node.attributes.push_back({{place.name, where(place.name_place)},
                                 {without_extra_blanks(attribute->Value()), where(place.value_place)}});
      attribute = attribute->Next();
    }
    return attribute == nullptr;
  }

  bool pair_texts(const tinyxml2::XMLElement& element, const MappedElement& mapped, XmlNode& node) const {
    const tinyxml2::XMLNode* child = element.FirstChild();
    const bool in_pieces = mapped.texts.size() > 1;
    std::string whole;  // of several pieces
    for (const MappedText& place : mapped.texts) {
      while (child && !child->ToText()) child = child->NextSibling();
      if (!child) return false;
      if (in_pieces) {
        node.texts.push_back({without_extra_blanks(child->Value()), where(place.place)});
        whole.append(place.after_blank ? " " : "").append(child->Value());
      } else {
        node.text = {without_extra_blanks(child->Value()), where(mapped.text_place)};
      }
      child = child->NextSibling();
    }
    while (child && !child->ToText()) child = child->NextSibling();
    if (in_pieces) node.text = {without_extra_blanks(whole), where(mapped.text_place)};
    return child == nullptr;
  }

  const VettedXml& xml_;
  std::size_t next_ = 0;
};

}  // namespace

MaybeWord XmlNode::value_of(std::string_view attribute) const {
  const auto found = std::find_if(attributes.begin(), attributes.end(),
                                  [&](const XmlAttribute& written) { return written.name.text == attribute; });
  if (found == attributes.end()) return std::nullopt;
  return found->value;
}

const XmlNode* XmlNode::child(std::string_view child_name) const {
  const auto found =
      std::find_if(children.begin(), children.end(), [&](const XmlNode& node) { return node.name.text == child_name; });
  return found == children.end() ? nullptr : &*found;
}

Read<XmlNode> tree_from_vetted(const VettedXml& xml) {
  tinyxml2::XMLDocument document;
  std::optional<XmlNode> root;
  if (document.Parse(xml.bytes.data(), xml.bytes.size()) == tinyxml2::XML_SUCCESS && document.RootElement()) {
    Pairing pairing(xml);
    if (!pairing.pair(*document.RootElement(), root.emplace()) || !pairing.all_paired()) root.reset();
  }
  if (root) return {std::move(root), {}};
  const NotXml kind{"the file reads in two ways", ""};
  return {std::nullopt, {{Severity::error, {xml.file_name, 0, 0, 0}, kind, std::nullopt}}};
}

}  // namespace rushlight
