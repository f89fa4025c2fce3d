#include "read/draft_parts.hpp"

namespace rushlight {

namespace {

DraftFood food_from_node(const XmlNode& node) {
  return {node.name.where,       node.value_of("kind"),   node.value_of("unit"),      node.value_of("carbohydrate"),
          node.value_of("step"), node.value_of("source"), conditions_from_node(node), text_from_node(node)};
}

DraftRow row_from_node(const XmlNode& node) {
  std::optional<DraftText> text = text_from_node(node);
  if (text->lines.empty()) text.reset();
  const auto word = [&](const char* name) { return node.value_of(name); };
  return {node.name.where,   word("fixed"),  word("per-kg"),
          word("over"),      word("plus"),   word("per-year"),
          word("percent"),   word("correction"), word("dose"),
          word("during"), word("times"), word("larger-of"),
          word("withheld"),  word("least"),  word("most"),
          word("most-percent"), word("most-per-kg"), word("source"), conditions_from_node(node),
          std::move(text)};
}

DraftDose dose_from_node(const XmlNode& node) {
  return {node.name.where,
          node.value_of("id"),
          node.value_of("unit"),
          node.value_of("round"),
          node.value_of("to"),
          node.value_of("no-stacking"),
          node.value_of("floor"),
          node.value_of("fresh"),
          text_of_child(node, "label"),
          made_from_children<DraftRow>(node, "row", row_from_node)};
}

}  // namespace

std::vector<DraftFood> foods_from_node(const XmlNode& foods) {
  return made_from_children<DraftFood>(foods, "food", food_from_node);
}

std::vector<DraftDose> doses_from_node(const XmlNode& doses) {
  return made_from_children<DraftDose>(doses, "dose", dose_from_node);
}

}  // namespace rushlight
