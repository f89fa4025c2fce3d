#include "read/safety_from_xml.hpp"

#include <utility>

#include "read/check_words.hpp"
#include "read/draft_parts.hpp"
#include "read/vetted_bytes.hpp"
#include "read/vocabulary.hpp"
#include "read/xml_tree.hpp"

namespace rushlight {

namespace {

DraftNever never_from_node(const XmlNode& node) {
  return {node.name.where,           node.value_of("id"),          node.value_of("protocol"),
          node.value_of("does"),     node.value_of("calmer-than"), node.value_of("source"),
          conditions_from_node(node)};
}

DraftWithin within_from_node(const XmlNode& node) {
  return {node.name.where,          node.value_of("id"),   node.value_of("protocol"), node.value_of("come-to"),
          node.value_of("at-once"), node.value_of("late"), node.value_of("source"),   conditions_from_node(node)};
}

DraftLook look_from_node(const XmlNode& node) {
  return {node.name.where,          node.value_of("id"),       node.value_of("protocol"), node.value_of("after"),
          node.value_of("urgency"), node.value_of("at-least"), node.value_of("at-most"),  node.value_of("source")};
}

DraftMonotone monotone_from_node(const XmlNode& node) {
  return {node.name.where,        node.value_of("id"),     node.value_of("protocol"), node.value_of("fact"),
          node.value_of("worse"), node.value_of("source"), conditions_from_node(node)};
}

DraftReading reading_from_node(const XmlNode& node) {
  return {node.name.where, node.value_of("language"), node.value_of("grade-at-most"), node.value_of("ease-at-least"),
          node.value_of("source")};
}

SafetyDraft safety_draft_of(const XmlNode& root) {
  const XmlNode* sources = root.child("sources");
  return {root.name.where,
          root.value_of("set"),
          approval_of_root(root),
          sources ? made_from_children<DraftSource>(*sources, "source", source_from_node) : std::vector<DraftSource>{},
          made_from_children<DraftNever>(root, "never", never_from_node),
          made_from_children<DraftWithin>(root, "within", within_from_node),
          made_from_children<DraftLook>(root, "look", look_from_node),
          made_from_children<DraftMonotone>(root, "monotone", monotone_from_node),
          made_from_children<DraftReading>(root, "reading", reading_from_node)};
}

}  // namespace

Read<SafetyDraft> safety_from_xml(std::string_view bytes, std::string file_name) {
  Read<VettedXml> vetted = vet_xml(std::string(bytes), std::move(file_name));
  if (!vetted.value) return {std::nullopt, std::move(vetted.findings)};
  Read<XmlNode> tree = tree_from_vetted(*vetted.value);
  if (!tree.value) return {std::nullopt, std::move(tree.findings)};
  const ElementWords& words = safety_vocabulary().front();
  std::vector<Finding> findings = word_findings(*tree.value, words);
  sort_findings(findings);
  if (tree.value->name.text != words.shape) return {std::nullopt, std::move(findings)};
  return {safety_draft_of(known_part_of(std::move(*tree.value), words, findings)), std::move(findings)};
}

}  // namespace rushlight
