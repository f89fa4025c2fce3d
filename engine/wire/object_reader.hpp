#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "wire/json_tree.hpp"

namespace rushlight {

/// An error at the place of a value.
Finding error_at(const JsonNode& node, Kind kind);

/// How long a text of a file or an event may be, in code points.
inline constexpr std::size_t kLongestText = 1000;
inline constexpr std::size_t kLongestName = 100;

/// The text of a value that must be one, not empty, not too long; otherwise a finding and nothing.
/// `what` is the word for it in the finding: the key.
std::optional<std::string> text_of(const JsonNode& node, const std::string& what, std::vector<Finding>& findings,
                                   std::size_t longest = kLongestText);

/// A JSON object read strictly: every key must be on the list, every value is asked for by name.
class ObjectReader {
 public:
  /// Reports at once that `node` is no object, and every key of it that is not in `known`.
  /// `owner` names it in findings: "the event", "`rescue`".
  ObjectReader(const JsonNode& node, std::string owner, const std::vector<std::string>& known,
               std::vector<Finding>& findings);

  const JsonNode* optional(std::string_view key) const { return node_.find(key); }
  /// Reports the key as missing when it is.
  const JsonNode* required(std::string_view key) const;
  std::optional<std::string> optional_text(const std::string& key, std::size_t longest = kLongestText) const;
  std::optional<std::string> required_text(const std::string& key, std::size_t longest = kLongestText) const;

 private:
  const JsonNode& node_;
  std::string owner_;
  std::vector<Finding>& findings_;
};

}  // namespace rushlight
