#include <algorithm>

#include "protocol/words.hpp"
#include "read/draft_parts.hpp"

namespace rushlight {

DraftText text_from_node(const XmlNode& node) {
  DraftText text{node.name.where, {}};
  for (const XmlNode& child : node.children) {
    if (!words::place_of(words::kLanguages, child.name.text)) continue;
    const bool repeated = std::any_of(text.lines.begin(), text.lines.end(), [&](const DraftText::Line& line) {
      return line.language.text == child.name.text;
    });
    if (!repeated) text.lines.push_back({child.name, child.text});
  }
  return text;
}

DraftText text_of_child(const XmlNode& node, std::string_view child_name) {
  const XmlNode* child = node.child(child_name);
  return child ? text_from_node(*child) : DraftText{node.name.where, {}};
}

std::optional<DraftText> optional_text_of_child(const XmlNode& node, std::string_view child_name) {
  const XmlNode* child = node.child(child_name);
  if (!child) return std::nullopt;
  return text_from_node(*child);
}

std::vector<DraftCondition> conditions_from_node(const XmlNode& node) {
  return made_from_children<DraftCondition>(node, "if", [](const XmlNode& written) {
    return DraftCondition{written.name.where,        written.value_of("fact"),       written.value_of("counter"),
                          written.value_of("done"),  written.value_of("clock-from"), written.value_of("clock-up-to"),
                          written.value_of("change"),
                          written.value_of("is"),    written.value_of("below"),      written.value_of("at-least"),
                          written.value_of("above"), written.value_of("at-most")};
  });
}

}  // namespace rushlight
