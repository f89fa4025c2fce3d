#include "cli/night_file.hpp"

#include "cli/refusals.hpp"
#include "wire/json_tree.hpp"
#include "wire/object_reader.hpp"

namespace rushlight {
namespace {

constexpr JsonLimits kHeadLimits{16 * 1024, 3};

/// The front of `rest` up to a line end, which goes with it; nothing when there is none.
std::optional<std::string_view> line_of(std::string_view& rest) {
  const std::size_t end = rest.find('\n');
  if (end == std::string_view::npos) return std::nullopt;
  const std::string_view line = rest.substr(0, end);
  rest.remove_prefix(end + 1);
  return line;
}

/// So many bytes and a line end behind them.
std::optional<std::string> part_of(std::string_view& rest, std::size_t size) {
  if (rest.size() <= size || rest[size] != '\n') return std::nullopt;
  std::string part(rest.substr(0, size));
  rest.remove_prefix(size + 1);
  return part;
}

std::optional<std::size_t> whole_in(const JsonNode& head, const std::string& key) {
  const JsonNode* node = head.find(key);
  if (node == nullptr || node->kind != JsonNode::Kind::number) return std::nullopt;
  const auto read = decimal_from_text(node->text);
  // Lengths may go beyond the million that no clinical number reaches, so they are added up from thousands.
  if (const auto* number = std::get_if<Decimal>(&read))
    return *number < Decimal{}
               ? std::nullopt
               : std::optional<std::size_t>(static_cast<std::size_t>(number->micros() / Decimal::kMicrosPerOne));
  std::size_t size = 0;
  for (const char digit : node->text) {
    if (digit < '0' || digit > '9' || size > kMostNightBytes) return std::nullopt;
    size = size * 10 + static_cast<std::size_t>(digit - '0');
  }
  return size;
}

Read<NightFile> refused(const std::string& file, const std::string& what, const std::string& right) {
  return {std::nullopt, {whole_error(file, WrongUse{what, right})}};
}

}  // namespace

Read<NightFile> night_from_bytes(std::string_view bytes, const std::string& file) {
  constexpr const char* kSaveAgain = "save the night on the page again";
  std::string_view rest = bytes;
  const auto first = line_of(rest);
  Read<JsonNode> head = first ? json_from_text(*first, file, kHeadLimits) : Read<JsonNode>{};
  const JsonNode* kind = head.value ? head.value->find("rushlight") : nullptr;
  if (kind == nullptr || kind->text != "night")
    return refused(file, "this is no night of the page", "give the file that the page saved");
  if (whole_in(*head.value, "format") != 1)
    return refused(file, "it was saved by a later version", "take it in with a program as new as the page");
  std::vector<Finding> findings;
  const auto text = [&](const char* key) {
    const JsonNode* node = head.value->find(key);
    return node != nullptr && node->kind == JsonNode::Kind::text ? node->text : std::string();
  };
  NightFile night;
  night.start.child = text("child");
  night.start.set = text("set");
  night.start.protocol = text("protocol");
  night.start.version = text("version");
  const std::optional<Moment> began = moment_from_text(text("began"));
  if (!text("ended").empty()) night.ended = moment_from_text(text("ended"));
  const auto child = whole_in(*head.value, "child_bytes"), protocol = whole_in(*head.value, "protocol_bytes"),
             events = whole_in(*head.value, "events");
  if (!began || !child || !protocol || !events || night.start.child.empty() || night.start.protocol.empty())
    return refused(file, "its first line does not say what it holds", kSaveAgain);
  night.start.began = *began;
  auto child_bytes = part_of(rest, *child);
  auto protocol_bytes = child_bytes ? part_of(rest, *protocol) : std::nullopt;
  if (!protocol_bytes) return refused(file, "it was cut, or changed by an editor", kSaveAgain);
  night.start.child_bytes = std::move(*child_bytes);
  night.start.protocol_bytes = std::move(*protocol_bytes);
  while (const auto line = line_of(rest)) night.lines.emplace_back(*line);
  if (!rest.empty() || night.lines.size() != *events)
    return refused(file, "it was cut, or changed by an editor", kSaveAgain);
  return {std::move(night), {}};
}

}  // namespace rushlight
