#include "read/protocol_from_xml.hpp"

#include <utility>

#include "read/check_words.hpp"
#include "read/draft_parts.hpp"
#include "read/vetted_bytes.hpp"
#include "read/vocabulary.hpp"
#include "read/xml_tree.hpp"

namespace rushlight {

namespace {

DraftTimer timer_from_node(const XmlNode& node) { return {node.name.where, node.value_of("id"), text_from_node(node)}; }

DraftCounter counter_from_node(const XmlNode& node) { return {node.name.where, node.value_of("id")}; }

DraftMark mark_from_node(const XmlNode& node) {
  return {node.name.where, node.value_of("id"), node.value_of("fact"), node.value_of("rise-over")};
}

std::optional<DraftHistory> history_of(const XmlNode& root) {
  const XmlNode* node = root.child("history");
  if (node == nullptr) return std::nullopt;
  return DraftHistory{node->name.where, node->value_of("low"), node->value_of("high"), node->value_of("near")};
}

std::optional<DraftFluids> fluids_of(const XmlNode& root) {
  const XmlNode* node = root.child("fluids");
  if (node == nullptr) return std::nullopt;
  return DraftFluids{node->name.where, node->value_of("hourly")};
}

DraftApprovedFile approved_file_from_node(const XmlNode& node) {
  return {node.name.where, node.value_of("name"), node.value_of("sha256")};
}

DraftSign sign_from_node(const XmlNode& node) {
  return {node.name.where, node.value_of("fact"), node.value_of("is"), text_from_node(node)};
}

Draft draft_from_tree(const XmlNode& root) {
  // A part that is left out reads like an empty one.
  const XmlNode nothing{{"", root.name.where}, {}, {"", root.name.where}, {}, {}};
  const auto part = [&](std::string_view name) -> const XmlNode& {
    const XmlNode* node = root.child(name);
    return node ? *node : nothing;
  };
  return {root.name.where,
          root.value_of("set"),
          root.value_of("id"),
          root.value_of("version"),
          root.value_of("languages"),
          root.value_of("start"),
          root.value_of("weight-fresh"),
          root.value_of("daily-dose-fresh"),
          root.value_of("insulin-doses"),
          approval_of_root(root),
          text_of_child(root, "title"),
          made_from_children<DraftText>(root, "caution", text_from_node),
          made_from_children<DraftSource>(part("sources"), "source", source_from_node),
          thresholds_from_node(part("thresholds")),
          facts_from_node(part("facts")),
          foods_from_node(part("foods")),
          doses_from_node(part("doses")),
          made_from_children<DraftTimer>(part("timers"), "timer", timer_from_node),
          made_from_children<DraftCounter>(part("counters"), "counter", counter_from_node),
          made_from_children<DraftMark>(part("marks"), "mark", mark_from_node),
          history_of(root),
          fluids_of(root),
          asks_from_node(part("opening")),
          made_from_children<DraftSign>(part("worse"), "sign", sign_from_node),
          watch_from_node(part("watch")),
          steps_from_node(part("steps"))};
}

}  // namespace

DraftSource source_from_node(const XmlNode& node) {
  return {
      node.name.where,        node.value_of("id"),    node.value_of("publisher"),       node.value_of("year"),
      node.value_of("title"), node.value_of("place"), node.value_of("common-practice"), node.value_of("from-memory")};
}

std::optional<DraftApproval> approval_of_root(const XmlNode& root) {
  const XmlNode* node = root.child("approval");
  if (node == nullptr) return std::nullopt;
  return DraftApproval{node->name.where,
                       node->value_of("by"),
                       node->value_of("role"),
                       node->value_of("on"),
                       node->value_of("until"),
                       node->value_of("key"),
                       node->value_of("signature"),
                       made_from_children<DraftApprovedFile>(*node, "file", approved_file_from_node)};
}

Read<Draft> protocol_from_xml(std::string_view bytes, std::string file_name) {
  Read<VettedXml> vetted = vet_xml(std::string(bytes), std::move(file_name));
  if (!vetted.value) return {std::nullopt, std::move(vetted.findings)};
  Read<XmlNode> tree = tree_from_vetted(*vetted.value);
  if (!tree.value) return {std::nullopt, std::move(tree.findings)};
  std::vector<Finding> findings = word_findings(*tree.value, vocabulary().front());
  sort_findings(findings);
  if (tree.value->name.text != "protocol") return {std::nullopt, std::move(findings)};
  return {draft_from_tree(known_part_of(std::move(*tree.value), vocabulary().front(), findings)), std::move(findings)};
}

}  // namespace rushlight
