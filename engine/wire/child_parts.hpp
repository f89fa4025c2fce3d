#pragma once

#include <array>
#include <array>
#include <optional>
#include <string>
#include <vector>

#include "protocol/child.hpp"
#include "wire/json_tree.hpp"
#include "wire/object_reader.hpp"

// The parts of a child file, each read on its own. All report into `findings` and give what could be read.

namespace rushlight::child_parts {

/// One word of a closed list; its place in the list.
template <std::size_t N>
std::optional<std::size_t> word_of(const JsonNode& node, const std::string& what,
                                   const std::array<std::string_view, N>& list, std::vector<Finding>& findings) {
  const auto text = text_of(node, what, findings, kLongestName);
  if (!text) return std::nullopt;
  for (std::size_t i = 0; i < N; ++i) {
    if (list[i] == *text) return i;
  }
  findings.push_back(error_at(node, WrongWord{*text, what, {list.begin(), list.end()}}));
  return std::nullopt;
}

std::optional<Day> day_of(const JsonNode& node, const std::string& what, std::vector<Finding>& findings);

/// A number with exactly this unit, from `least` to `most`.
std::optional<Decimal> amount_of(const JsonNode& node, const std::string& what, Unit unit, Decimal least, Decimal most,
                                 std::vector<Finding>& findings);

/// A telephone number: digits, blanks and + ( ) - . / only.
std::string telephone_of(const ObjectReader& reader, const std::string& key, std::vector<Finding>& findings);

std::vector<RescueMedicine> rescue_from(const JsonNode& node, std::vector<Finding>& findings);
std::vector<ChildFood> foods_from(const JsonNode& node, Language language, std::vector<Finding>& findings);
Contacts contacts_from(const JsonNode& node, std::vector<Finding>& findings);

}  // namespace rushlight::child_parts
