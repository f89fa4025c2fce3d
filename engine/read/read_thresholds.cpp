#include "protocol/words.hpp"
#include "read/draft_parts.hpp"

namespace rushlight {

namespace {

DraftBand band_from_node(const XmlNode& node) {
  return {node.name.where,
          node.value_of("age-from"),
          node.value_of("age-up-to"),
          node.value_of("weight-from"),
          node.value_of("weight-up-to"),
          node.value_of("clock-from"),
          node.value_of("clock-up-to"),
          node.value_of("value"),
          node.value_of("mg-dl"),
          node.value_of("mmol-l")};
}

}  // namespace

std::vector<DraftThreshold> thresholds_from_node(const XmlNode& thresholds) {
  std::vector<DraftThreshold> all;
  for (const XmlNode& node : thresholds.children) {
    if (!words::place_of(words::kThresholdKinds, node.name.text)) continue;
    all.push_back({node.name.where, node.name, node.value_of("id"), node.value_of("value"), node.value_of("mg-dl"),
                   node.value_of("mmol-l"), node.value_of("least"), node.value_of("most"), node.value_of("source"),
                   node.value_of("pair-exception"), made_from_children<DraftBand>(node, "band", band_from_node),
                   text_from_node(node), optional_text_of_child(node, "note")});
  }
  return all;
}

}  // namespace rushlight
