#include "wire/json_tree.hpp"

#include <nlohmann/json.hpp>

#include "finding/byte_order_mark.hpp"
#include "wire/characters.hpp"

namespace rushlight {
namespace {

// Where the reader stands in the text: in bytes, and as line and column for people.
class Cursor {
 public:
  Cursor(std::string_view text, std::string file, std::uint32_t first_line)
      : text_(text), file_(std::move(file)), line_(first_line) {}

  std::size_t offset() const { return offset_; }

  void move_to(std::size_t offset) {
    for (; offset_ < offset && offset_ < text_.size(); ++offset_) {
      const char byte = text_[offset_];
      if (byte == '\n') {
        ++line_;
        column_ = 1;
      } else if ((static_cast<unsigned char>(byte) & 0xC0U) != 0x80U) {
        ++column_;
      }
    }
  }

  void skip_between() {
    const std::size_t next = text_.find_first_not_of(" \t\r\n,:", offset_);
    move_to(next == std::string_view::npos ? text_.size() : next);
  }

  /// The next `bytes` as a place; an empty stretch is underlined with one sign.
  Where here(std::size_t bytes) const {
    const std::size_t length = length_of(text_.substr(offset_, bytes));
    return Where{file_, line_, column_, static_cast<std::uint32_t>(length == 0 ? 1 : length)};
  }

  std::string_view rest() const { return text_.substr(offset_); }

 private:
  std::string_view text_;
  std::string file_;
  std::size_t offset_ = 0;
  std::uint32_t line_;
  std::uint32_t column_ = 1;
};

Finding error_at(Where where, Kind kind) { return Finding{Severity::error, std::move(where), std::move(kind), {}}; }

// Builds the tree while the library parses. The library gives no places, so a cursor follows it from token to token:
// everything up to the token at hand is known to be well formed.
class TreeBuilder {
 public:
  TreeBuilder(std::string_view text, const std::string& file, std::uint32_t first_line, int most_depth)
      : cursor_(text, file, first_line), size_(text.size()), most_depth_(most_depth) {}

  JsonNode root;
  std::vector<Finding> findings;

  bool null() { return add_word(JsonNode::Kind::null); }
  bool boolean(bool) { return add_word(JsonNode::Kind::boolean); }
  bool number_integer(std::int64_t) { return add_word(JsonNode::Kind::number); }
  bool number_unsigned(std::uint64_t) { return add_word(JsonNode::Kind::number); }
  bool number_float(double, const std::string&) { return add_word(JsonNode::Kind::number); }

  bool string(std::string& value) {
    JsonNode node;
    node.kind = JsonNode::Kind::text;
    node.where = quoted_token();
    node.text = std::move(value);
    return add(std::move(node)) != nullptr;
  }

  bool key(std::string& value) {
    JsonMember member;
    member.key_where = quoted_token();
    member.key = std::move(value);
    JsonNode& owner = *open_.back();
    if (owner.find(member.key) != nullptr) findings.push_back(error_at(member.key_where, RepeatedKey{member.key}));
    owner.members.push_back(std::move(member));
    return true;
  }

  bool start_object(std::size_t) { return open(JsonNode::Kind::object); }
  bool start_array(std::size_t) { return open(JsonNode::Kind::list); }
  bool end_object() { return close(); }
  bool end_array() { return close(); }
  bool binary(std::vector<std::uint8_t>&) { return false; }  // never in a JSON text

  bool parse_error(std::size_t position, const std::string& last_token, const nlohmann::detail::exception& error) {
    if (error.id == 406) {  // a number too large for the library; no clinical value is
      cursor_.skip_between();
      const std::size_t length = word_length();
      findings.push_back(error_at(cursor_.here(length),
                                  BadNumber{std::string(cursor_.rest().substr(0, length)), "it is far too large"}));
      return false;
    }
    if (last_token.size() == 1 && position > 0 && position - 1 < size_) {
      cursor_.move_to(position - 1);
    } else {
      cursor_.skip_between();
    }
    const std::string_view rest = cursor_.rest();
    if (rest.empty()) {
      findings.push_back(error_at(cursor_.here(1), NotJson{"it ends before it is complete"}));
      return false;
    }
    const std::size_t length = rest.front() == '"' ? string_length(rest) : word_length();
    findings.push_back(
        error_at(cursor_.here(length), NotJson{"`" + std::string(rest.substr(0, length)) + "` does not belong here"}));
    return false;
  }

 private:
  // A string with its quote signs, or what there is of it before the line ends.
  static std::size_t string_length(std::string_view rest) {
    std::size_t i = 1;
    while (i < rest.size() && rest[i] != '"' && rest[i] != '\n') i += rest[i] == '\\' ? 2U : 1U;
    if (i >= rest.size()) return rest.size();
    return rest[i] == '"' ? i + 1 : i;
  }

  std::size_t word_length() const {
    const std::string_view rest = cursor_.rest();
    const std::size_t end = rest.find_first_of(" \t\r\n,:[]{}\"");
    if (end == 0) return 1;
    return end == std::string_view::npos ? rest.size() : end;
  }

  Where quoted_token() {
    cursor_.skip_between();
    const std::size_t length = string_length(cursor_.rest());
    const std::size_t end = cursor_.offset() + length;
    if (length <= 2) {  // "": both quote signs are underlined
      Where where = cursor_.here(length);
      cursor_.move_to(end);
      return where;
    }
    cursor_.move_to(cursor_.offset() + 1);
    Where where = cursor_.here(length - 2);
    cursor_.move_to(end);
    return where;
  }

  bool add_word(JsonNode::Kind kind) {
    cursor_.skip_between();
    const std::size_t length = word_length();
    JsonNode node;
    node.kind = kind;
    node.where = cursor_.here(length);
    node.text = std::string(cursor_.rest().substr(0, length));
    cursor_.move_to(cursor_.offset() + length);
    return add(std::move(node)) != nullptr;
  }

  JsonNode* add(JsonNode node) {
    if (open_.empty()) {
      root = std::move(node);
      return &root;
    }
    JsonNode& owner = *open_.back();
    if (owner.kind == JsonNode::Kind::list) {
      owner.items.push_back(std::move(node));
      return &owner.items.back();
    }
    owner.members.back().value = std::move(node);
    return &owner.members.back().value;
  }

  // A place in `open_` stays good: while a list or object is open, nothing is added to those around it.
  bool open(JsonNode::Kind kind) {
    cursor_.skip_between();
    JsonNode node;
    node.kind = kind;
    node.where = cursor_.here(1);
    cursor_.move_to(cursor_.offset() + 1);
    const int depth = static_cast<int>(open_.size()) + 1;
    if (depth > most_depth_) {
      findings.push_back(error_at(node.where, TooLarge{"the depth of lists and objects", depth, most_depth_}));
      return false;
    }
    open_.push_back(add(std::move(node)));
    return true;
  }

  bool close() {
    cursor_.skip_between();
    cursor_.move_to(cursor_.offset() + 1);
    open_.pop_back();
    return true;
  }

  Cursor cursor_;
  std::size_t size_;
  int most_depth_;
  std::vector<JsonNode*> open_;
};


void refuse_hidden_characters(const JsonNode& node, std::vector<Finding>& findings) {
  if (const auto found = first_forbidden(node.text, LineEnds::refused)) {
    findings.push_back(error_at(node.where, ForbiddenCharacter{found->name}));
  }
  for (const JsonNode& item : node.items) refuse_hidden_characters(item, findings);
  for (const JsonMember& member : node.members) {
    if (const auto found = first_forbidden(member.key, LineEnds::refused)) {
      findings.push_back(error_at(member.key_where, ForbiddenCharacter{found->name}));
    }
    refuse_hidden_characters(member.value, findings);
  }
}

}  // namespace

const JsonNode* JsonNode::find(std::string_view key) const {
  for (const JsonMember& member : members) {
    if (member.key == key) return &member.value;
  }
  return nullptr;
}

Read<JsonNode> json_from_text(std::string_view bytes, const std::string& file, const JsonLimits& limits,
                              std::uint32_t first_line) {
  if (bytes.size() > limits.bytes) {
    const TooLarge kind{"the text", static_cast<long long>(bytes.size()), static_cast<long long>(limits.bytes)};
    return {std::nullopt, {error_at(Where{file, 0, 0, 0}, kind)}};
  }
  if (bytes.starts_with(kByteOrderMark)) bytes.remove_prefix(kByteOrderMark.size());
  Cursor cursor(bytes, file, first_line);
  if (const auto offset = first_not_utf8(bytes)) {
    cursor.move_to(*offset);
    return {std::nullopt, {error_at(cursor.here(1), NotUtf8{})}};
  }
  if (const auto found = first_forbidden(bytes, LineEnds::allowed)) {
    cursor.move_to(found->offset);
    Where where = cursor.here(1);
    where.length = 1;
    return {std::nullopt, {error_at(where, ForbiddenCharacter{found->name})}};
  }
  TreeBuilder builder(bytes, file, first_line, limits.depth);
  const bool parsed = nlohmann::json::sax_parse(bytes.begin(), bytes.end(), &builder);
  if (parsed) refuse_hidden_characters(builder.root, builder.findings);
  Read<JsonNode> result{std::nullopt, std::move(builder.findings)};
  sort_findings(result.findings);
  if (parsed && !has_error(result.findings)) result.value = std::move(builder.root);
  return result;
}

}  // namespace rushlight
