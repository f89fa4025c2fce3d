#include "wire/value_from_json.hpp"

#include "wire/object_reader.hpp"

namespace rushlight {

std::variant<Value, Finding> value_from_json(const JsonNode& node, const Fact& fact, GlucoseUnit usual) {
  if (fact.from_child) {
    return error_at(node, WrongUse{"`" + fact.name + "` comes from the child file and is never asked",
                                   "change it in the child file"});
  }
  if (node.kind != JsonNode::Kind::text && node.kind != JsonNode::Kind::number) {
    return error_at(node, WrongType{fact.name, fact.yes_no ? "\"yes\", \"no\" or \"unknown\"" : "a text or a number"});
  }
  auto answer = value_from_text(node.text, fact, usual);
  if (auto* value = std::get_if<Value>(&answer)) return *value;
  return error_at(node, std::get<Kind>(std::move(answer)));
}

}  // namespace rushlight
