#include "read/examples_from_xml.hpp"

#include <utility>

#include "read/check_words.hpp"
#include "read/draft_parts.hpp"
#include "read/vetted_bytes.hpp"
#include "read/vocabulary.hpp"
#include "read/xml_tree.hpp"

namespace rushlight {

namespace {

DraftExampleChild example_child_from_node(const XmlNode& node) {
  return {node.name.where,
          node.value_of("id"),
          node.value_of("age"),
          node.value_of("weight"),
          node.value_of("total-daily-dose"),
          node.value_of("insulin-step"),
          node.value_of("correction-factor"),
          node.value_of("delivery"),
          node.value_of("rescue"),
          node.value_of("strips"),
          node.value_of("unit"),
          node.value_of("mini-dose-kit")};
}

DraftExpect expect_from_node(const XmlNode& node) {
  return {node.name.where,       node.value_of("protocol"), node.value_of("step"),    node.value_of("urgency"),
          node.value_of("dose"), node.value_of("amount"),   node.value_of("withheld")};
}

DraftMoment moment_from_node(const XmlNode& node) {
  DraftMoment moment{node.name.where, node.value_of("after"), {}};
  for (const XmlNode& child : node.children) {
    if (child.name.text == "expect") {
      moment.lines.emplace_back(expect_from_node(child));
    } else {
      moment.lines.emplace_back(DraftHappening{child.name, child.value_of("fact"), child.value_of("is"),
                                               child.value_of("action"), child.value_of("outcome"),
                                               child.value_of("amount"), child.value_of("contact")});
    }
  }
  return moment;
}

DraftWorkedExample example_from_node(const XmlNode& node) {
  return {node.name.where,
          node.value_of("id"),
          node.value_of("protocol"),
          node.value_of("child"),
          node.value_of("begins"),
          node.value_of("source"),
          made_from_children<DraftMoment>(node, "at", moment_from_node)};
}

ExamplesDraft examples_draft_from_tree(const XmlNode& root) {
  const XmlNode* sources = root.child("sources");
  return {root.name.where, root.value_of("set"),
          sources ? made_from_children<DraftSource>(*sources, "source", source_from_node) : std::vector<DraftSource>{},
          made_from_children<DraftExampleChild>(root, "child", example_child_from_node),
          made_from_children<DraftWorkedExample>(root, "example", example_from_node)};
}

}  // namespace

Read<ExamplesDraft> examples_from_xml(std::string_view bytes, std::string file_name) {
  Read<VettedXml> vetted = vet_xml(std::string(bytes), std::move(file_name));
  if (!vetted.value) return {std::nullopt, std::move(vetted.findings)};
  Read<XmlNode> tree = tree_from_vetted(*vetted.value);
  if (!tree.value) return {std::nullopt, std::move(tree.findings)};
  const ElementWords& words = examples_vocabulary().front();
  std::vector<Finding> findings = word_findings(*tree.value, words);
  sort_findings(findings);
  if (tree.value->name.text != words.shape) return {std::nullopt, std::move(findings)};
  return {examples_draft_from_tree(known_part_of(std::move(*tree.value), words, findings)), std::move(findings)};
}

}  // namespace rushlight
