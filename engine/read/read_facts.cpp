#include <algorithm>

#include "read/draft_parts.hpp"
#include "read/vocabulary.hpp"

namespace rushlight {

namespace {

DraftOption option_from_node(const XmlNode& node) {
  return {node.name.where, node.value_of("id"), text_from_node(node)};
}

bool is_question(const XmlNode& node) {
  const std::vector<ChildWords>& kinds = words_of("facts").children;
  return std::any_of(kinds.begin(), kinds.end(), [&](const ChildWords& kind) { return kind.name == node.name.text; });
}

}  // namespace

std::vector<DraftFact> facts_from_node(const XmlNode& facts) {
  std::vector<DraftFact> all;
  for (const XmlNode& node : facts.children) {
    if (!is_question(node)) continue;
    all.push_back({node.name.where, node.name, node.value_of("id"), text_of_child(node, "ask"),
                   optional_text_of_child(node, "help"),
                   made_from_children<DraftOption>(node, "option", option_from_node)});
  }
  return all;
}

}  // namespace rushlight
