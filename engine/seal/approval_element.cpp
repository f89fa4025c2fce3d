#include "seal/approval_element.hpp"

#include <algorithm>
#include <array>

#include "finding/markup.hpp"

namespace rushlight {
namespace {

constexpr auto kNowhere = std::string_view::npos;

/// From `start` to behind the `>` that ends this tag; a `>` in a value does not.
std::size_t tag_end(std::string_view bytes, std::size_t start) {
  char quote = 0;
  for (std::size_t at = start; at < bytes.size(); ++at) {
    const char c = bytes[at];
    if (quote != 0) {
      if (c == quote) quote = 0;
    } else if (c == '"' || c == '\'') {
      quote = c;
    } else if (c == '>') {
      return at + 1;
    }
  }
  return kNowhere;
}

/// Behind the end of what is no element and begins here: a comment, an instruction, a piece of plain characters. `at`
/// itself when none begins.
std::size_t behind_no_element(std::string_view bytes, std::size_t at) {
  constexpr std::array<std::array<std::string_view, 2>, 3> kNoElements = {
      {{"<!--", "-->"}, {"<?", "?>"}, {"<![CDATA[", "]]>"}}};
  for (const auto& [opening, closing] : kNoElements) {
    if (!bytes.substr(at).starts_with(opening)) continue;
    const std::size_t end = bytes.find(closing, at + opening.size());
    return end == kNowhere ? bytes.size() : end + closing.size();
  }
  return at;
}

/// Where the next tag of any name, or of this one, begins.
std::size_t tag_start(std::string_view bytes, std::string_view name = "") {
  for (std::size_t at = bytes.find('<'); at != kNowhere; at = bytes.find('<', at)) {
    const std::size_t behind = behind_no_element(bytes, at);
    if (behind != at) {
      at = behind;
      continue;
    }
    const std::string_view tag = bytes.substr(at + 1);
    if (name.empty()) return at;
    const bool whole = tag.starts_with(name) && tag.size() > name.size() &&
                       std::string_view(" \t\r\n/>").find(tag[name.size()]) != kNowhere;
    if (whole) return at;
    ++at;
  }
  return kNowhere;
}

std::size_t behind_root_tag(std::string_view bytes) {
  const std::size_t root = tag_start(bytes);
  return root == kNowhere ? root : tag_end(bytes, root);
}

std::string spelled(const Approval& approval) {
  const auto attribute = [](const char* name, const std::string& value) {
    return std::string(" ") + name + "=\"" + escaped_for_markup(value) + "\"";
  };
  std::string text = "<approval" + attribute("by", approval.by) + attribute("role", approval.role) +
                     attribute("on", text_from_day(approval.on)) + attribute("until", text_from_day(approval.until)) +
                     attribute("key", approval.key) + attribute("signature", approval.signature) + ">";
  for (const ApprovedFile& file : approval.files)
    text += "<file" + attribute("name", file.name) + attribute("sha256", file.sha256) + "/>";
  return text + "</approval>";
}

/// Takes what spelled() writes from the front of the bytes, and says so when something else stands there.
class Spelled {
 public:
  explicit Spelled(std::string_view bytes) : rest_(bytes) {}

  bool takes(std::string_view words) {
    if (!rest_.starts_with(words)) return false;
    rest_.remove_prefix(words.size());
    return true;
  }

  std::optional<std::string> attribute(std::string_view name) {
    if (!takes(" ") || !takes(name) || !takes("=\"")) return std::nullopt;
    const std::size_t end = rest_.find('"');
    if (end == kNowhere) return std::nullopt;
    std::string value = unescaped(rest_.substr(0, end));
    rest_.remove_prefix(end + 1);
    return value;
  }

 private:
  static std::string unescaped(std::string_view text) {
    constexpr std::array<std::pair<std::string_view, char>, 4> kMarks = {
        {{"&amp;", '&'}, {"&lt;", '<'}, {"&gt;", '>'}, {"&quot;", '"'}}};
    std::string plain;
    while (!text.empty()) {
      const auto mark =
          std::find_if(kMarks.begin(), kMarks.end(), [&](const auto& each) { return text.starts_with(each.first); });
      const bool marked = mark != kMarks.end();
      plain += marked ? mark->second : text.front();
      text.remove_prefix(marked ? mark->first.size() : 1);
    }
    return plain;
  }

  std::string_view rest_;
};

std::optional<Approval> read_spelled(std::string_view bytes) {
  Spelled text(bytes);
  if (!text.takes("<approval")) return std::nullopt;
  auto by = text.attribute("by"), role = text.attribute("role"), on = text.attribute("on"),
       until = text.attribute("until"), key = text.attribute("key"), signature = text.attribute("signature");
  const auto first = on ? day_from_text(*on) : std::nullopt, last = until ? day_from_text(*until) : std::nullopt;
  if (!by || !role || !first || !last || !key || !signature || !text.takes(">")) return std::nullopt;
  Approval approval{*by, *role, *first, *last, {}, *key, *signature, Standing::unseen};
  while (text.takes("<file")) {
    auto name = text.attribute("name"), sha256 = text.attribute("sha256");
    if (!name || !sha256 || !text.takes("/>")) return std::nullopt;
    approval.files.push_back(ApprovedFile{*name, *sha256});
  }
  if (!text.takes("</approval>")) return std::nullopt;
  return approval;
}

}  // namespace

bool can_be_said(std::string_view words) {
  const auto is_control = [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7F; };
  // Blanks at the ends, and two of them, are not what a reader of XML gives back.
  const bool blanks = words.empty() || words.front() == ' ' || words.back() == ' ' || words.find("  ") != kNowhere;
  return !blanks && std::none_of(words.begin(), words.end(), is_control);
}

bool has_approval(std::string_view bytes) { return tag_start(bytes, "approval") != kNowhere; }

std::string without_approval(std::string_view bytes) {
  const std::size_t start = tag_start(bytes, "approval");
  const std::size_t opened = start == kNowhere ? start : tag_end(bytes, start);
  if (opened == kNowhere) return std::string(bytes);
  std::size_t end = opened;
  constexpr std::string_view kClosing = "</approval>";
  if (bytes[opened - 2] != '/') {
    const std::size_t closing = bytes.find(kClosing, opened);
    if (closing != kNowhere) end = closing + kClosing.size();
  }
  return std::string(bytes.substr(0, start)) + std::string(bytes.substr(end));
}

std::optional<Approval> approval_in(std::string_view bytes) {
  const std::size_t at = behind_root_tag(bytes);
  if (at == kNowhere) return std::nullopt;
  std::optional<Approval> approval = read_spelled(bytes.substr(at));
  // Written again from what was read: what differs in one letter was not written by the program.
  if (!approval || !bytes.substr(at).starts_with(spelled(*approval))) return std::nullopt;
  const bool said = can_be_said(approval->by) && can_be_said(approval->role) &&
                    std::all_of(approval->files.begin(), approval->files.end(),
                                [](const ApprovedFile& file) { return can_be_said(file.name); });
  return said ? approval : std::nullopt;
}

std::optional<std::string> with_approval(std::string_view bytes, const Approval& approval) {
  const std::string plain = without_approval(bytes);
  const std::size_t at = behind_root_tag(plain);
  if (at == kNowhere || plain[at - 2] == '/') return std::nullopt;
  return plain.substr(0, at) + spelled(approval) + plain.substr(at);
}

}  // namespace rushlight
