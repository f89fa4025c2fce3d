#pragma once

#include "protocol/draft.hpp"
#include "read/xml_tree.hpp"

namespace rushlight {

// The parts that protocol_from_xml is put together from, one file each. They take what is there and report nothing:
// check_words has looked at every word. Of repeated single elements the first counts. Private to this folder.

/// The language elements of `node`. No lines when it has none.
DraftText text_from_node(const XmlNode& node);
/// The languages of the child of this name; without such a child no lines, placed at `node`.
DraftText text_of_child(const XmlNode& node, std::string_view child_name);
std::optional<DraftText> optional_text_of_child(const XmlNode& node, std::string_view child_name);

DraftSource source_from_node(const XmlNode& node);
/// Of a protocol or of safety.xml.
std::optional<DraftApproval> approval_of_root(const XmlNode& root);
std::vector<DraftCondition> conditions_from_node(const XmlNode& node);

std::vector<DraftThreshold> thresholds_from_node(const XmlNode& thresholds);
std::vector<DraftFact> facts_from_node(const XmlNode& facts);
std::vector<DraftFood> foods_from_node(const XmlNode& foods);
std::vector<DraftDose> doses_from_node(const XmlNode& doses);
std::vector<DraftRule> rules_from_node(const XmlNode& step);
std::vector<DraftWatch> watch_from_node(const XmlNode& watch);
/// Of `<opening>` and of a step.
std::vector<DraftAsk> asks_from_node(const XmlNode& node);
std::vector<DraftStep> steps_from_node(const XmlNode& steps);

/// Calls `make` with every child of this name, in file order.
template <class Made, class Make>
std::vector<Made> made_from_children(const XmlNode& node, std::string_view child_name, const Make& make) {
  std::vector<Made> all;
  for (const XmlNode& child : node.children) {
    if (child.name.text == child_name) all.push_back(make(child));
  }
  return all;
}

}  // namespace rushlight
