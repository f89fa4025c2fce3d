#include "wire/object_reader.hpp"

#include <algorithm>

#include "wire/characters.hpp"

namespace rushlight {

Finding error_at(const JsonNode& node, Kind kind) { return Finding{Severity::error, node.where, std::move(kind), {}}; }

std::optional<std::string> text_of(const JsonNode& node, const std::string& what, std::vector<Finding>& findings,
                                   std::size_t longest) {
  if (node.kind != JsonNode::Kind::text) {
    findings.push_back(error_at(node, WrongType{what, "a text between quote signs"}));
    return std::nullopt;
  }
  const std::size_t length = length_of(node.text);
  if (length > longest) {
    findings.push_back(error_at(node, TooLarge{"the length of `" + what + "`", static_cast<long long>(length),
                                               static_cast<long long>(longest)}));
    return std::nullopt;
  }
  if (node.text.find_first_not_of(' ') == std::string::npos) {
    findings.push_back(
        error_at(node, WrongUse{"`" + what + "` is empty", "write something, or leave `" + what + "` out"}));
    return std::nullopt;
  }
  return node.text;
}

ObjectReader::ObjectReader(const JsonNode& node, std::string owner, const std::vector<std::string>& known,
                           std::vector<Finding>& findings)
    : node_(node), owner_(std::move(owner)), findings_(findings) {
  if (node.kind != JsonNode::Kind::object) {
    findings_.push_back(error_at(node, WrongType{owner_, "an object in braces: {...}"}));
    return;
  }
  for (const JsonMember& member : node.members) {
    if (std::find(known.begin(), known.end(), member.key) != known.end()) continue;
    findings_.push_back(Finding{Severity::error, member.key_where, UnknownKey{member.key, owner_, known}, {}});
  }
}

const JsonNode* ObjectReader::required(std::string_view key) const {
  const JsonNode* node = node_.find(key);
  if (node == nullptr && node_.kind == JsonNode::Kind::object) {
    findings_.push_back(error_at(node_, MissingKey{std::string(key), owner_}));
  }
  return node;
}

std::optional<std::string> ObjectReader::optional_text(const std::string& key, std::size_t longest) const {
  const JsonNode* node = optional(key);
  return node == nullptr ? std::nullopt : text_of(*node, key, findings_, longest);
}

std::optional<std::string> ObjectReader::required_text(const std::string& key, std::size_t longest) const {
  const JsonNode* node = required(key);
  return node == nullptr ? std::nullopt : text_of(*node, key, findings_, longest);
}

}  // namespace rushlight
