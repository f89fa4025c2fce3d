#include "read/xml_scan.hpp"

#include <algorithm>
#include <utility>

#include "read/vetted_bytes.hpp"
#include "read/xml_characters.hpp"

namespace rushlight {

namespace {

constexpr std::size_t kUsualTags = 10000;
constexpr const char* kRightDeclaration = "write `<?xml version=\"1.0\" encoding=\"UTF-8\"?>`";

std::string lower_case(std::string text) {
  for (char& c : text) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return text;
}

/// Reads `name = "value"` parts of the declaration one after the other.
struct DeclarationPart {
  std::string name;
  Span value;
};

std::optional<DeclarationPart> next_part(std::string_view bytes, std::size_t& at, std::size_t end) {
  std::size_t pos = at;
  const auto skip = [&] {
    while (pos < end && is_blank(bytes[pos])) ++pos;
  };
  skip();
  if (pos == at) return std::nullopt;  // a blank must stand before each part
  const std::size_t name = pos;
  while (pos < end && bytes[pos] >= 'a' && bytes[pos] <= 'z') ++pos;
  DeclarationPart part{std::string(bytes.substr(name, pos - name)), {0, 0}};
  skip();
  if (part.name.empty() || pos >= end || bytes[pos] != '=') return std::nullopt;
  ++pos;
  skip();
  if (pos >= end || (bytes[pos] != '"' && bytes[pos] != '\'')) return std::nullopt;
  const std::size_t close = bytes.find(bytes[pos], pos + 1);
  if (close == std::string_view::npos || close >= end) return std::nullopt;
  part.value = {pos + 1, close};
  at = close + 1;
  return part;
}

}  // namespace

XmlScan::XmlScan(std::string_view bytes, std::size_t start, const Lines& lines, const FileName& file)
    : bytes_(bytes), pos_(start), lines_(lines), file_(file) {}

void XmlScan::run() {
  // Room for the tags of a clinic's file, closing ones too; a file of nothing but `<` gets no more.
  const auto tags = static_cast<std::size_t>(std::count(bytes_.begin(), bytes_.end(), '<'));
  map.elements.reserve(std::min(tags, kUsualTags));
  if (sees("<?xml") && bytes_.size() > pos_ + 5 && is_blank(bytes_[pos_ + 5])) read_declaration();
  while (!at_end() && !stopped_) {
    if (bytes_[pos_] == '<') {
      read_markup();
    } else {
      read_text();
    }
  }
  if (!stopped_) finish();
}

void XmlScan::finish() {
  if (map.elements.empty() && findings.empty()) {
    not_xml({bytes_.size(), bytes_.size()}, "the file holds no element", "begin with `<protocol ...>`");
  }
  if (open_.empty() || open_.back().forgiven) return;
  const MappedElement& innermost = map.elements[open_.back().element];
  not_xml(innermost.name_span, "`" + innermost.name + "` is not closed before the file ends",
          "close it with `</" + innermost.name + ">`");
}

void XmlScan::report(Span span, Kind kind, std::optional<Because> because) {
  if (findings.size() >= kMostVettingFindings) return stop();
  findings.push_back({Severity::error, where(span), std::move(kind), std::move(because)});
}

void XmlScan::not_xml(Span span, std::string what, std::string right, std::optional<Because> because) {
  report(span, NotXml{std::move(what), std::move(right)}, std::move(because));
}

bool XmlScan::skip_blanks() {
  const std::size_t before = pos_;
  while (!at_end() && is_blank(bytes_[pos_])) ++pos_;
  return pos_ != before;
}

bool XmlScan::sees_name() const {
  const CodePoint point = code_point_at(bytes_, pos_);
  return point.size != 0 && may_start_name(point.value);
}

/// Reports what has more code points than it may. Nothing has more of them than bytes, so hardly a text is counted.
bool XmlScan::is_longer(Span span, std::size_t most, const char* what) {
  if (span.end - span.begin <= most) return false;
  const std::size_t length = points_in(bytes_.substr(span.begin, span.end - span.begin));
  if (length <= most) return false;
  report(span, TooLarge{what, static_cast<long long>(length), static_cast<long long>(most)});
  return true;
}

void XmlScan::skip_to_end_of(std::string_view closing, Span opening, const std::string& what,
                             std::optional<Because> because) {
  const std::size_t end = bytes_.find(closing, opening.end);
  if (end == std::string_view::npos) {
    not_xml(opening, what + " is not closed", "close it with `" + std::string(closing) + "`", std::move(because));
    return stop();
  }
  pos_ = end + closing.size();
}

void XmlScan::read_markup() {
  if (sees("<!--")) return read_comment();
  if (sees("<![CDATA[")) return read_cdata();
  if (sees("<!DOCTYPE")) {
    not_xml({pos_, pos_ + 9}, "a DOCTYPE stands in the file", "take it out");
    return stop();
  }
  if (sees("<!")) {
    not_xml({pos_, pos_ + 2}, "`<!` begins neither a comment nor anything else", "begin a comment with `<!--`");
    return stop();
  }
  if (sees("<?")) return read_instruction();
  if (sees("</")) return read_closing_tag();
  ++pos_;
  const bool is_tag = sees_name();
  --pos_;
  if (is_tag) return read_opening_tag();
  not_xml({pos_, pos_ + 1}, "a bare `<` stands in a text", "write `&lt;`");
  ++pos_;
}

void XmlScan::read_declaration() {
  const std::size_t begin = pos_;
  skip_to_end_of("?>", {begin, begin + 5}, "the XML declaration");
  if (stopped_) return;
  const std::size_t end = pos_ - 2;
  std::size_t at = begin + 5;
  // Each part may stand once, in this order; only the version must.
  std::size_t next = 0;
  constexpr std::string_view kParts[] = {"version", "encoding", "standalone"};
  bool well_formed = true;
  while (well_formed && at < end) {
    if (bytes_.substr(at, end - at).find_first_not_of(" \t\r\n") == std::string_view::npos) break;
    const std::optional<DeclarationPart> part = next_part(bytes_, at, end);
    const std::size_t allowed_first = next;
    while (part && next < 3 && kParts[next] != part->name) ++next;
    well_formed = part && next < 3 && (allowed_first != 0 || next == 0);
    if (!well_formed) break;
    const std::string value = text_of(part->value);
    if (next == 0 && value != "1.0") {
      not_xml(part->value, "the XML version is `" + value + "`", kRightDeclaration);
    } else if (next == 1 && lower_case(value) != "utf-8") {
      not_xml(part->value, "the file declares the encoding `" + value + "`",
              "save the file as UTF-8 and declare `UTF-8`");
    } else if (next == 2 && value != "yes" && value != "no") {
      not_xml(part->value, "`standalone` is `" + value + "`", "write `yes` or `no`, or leave it out");
    }
    ++next;
  }
  if (!well_formed || next == 0) not_xml({begin, pos_}, "the XML declaration is malformed", kRightDeclaration);
}

void XmlScan::read_instruction() {
  const std::size_t begin = pos_;
  skip_to_end_of("?>", {begin, begin + 2}, "a processing instruction");
  if (stopped_) return;
  const bool is_declaration = lower_case(text_of({begin + 2, begin + 5})) == "xml" &&
                              !may_continue_name(code_point_at(bytes_, begin + 5).value);
  if (is_declaration) {
    not_xml({begin, pos_}, "the XML declaration is not at the very start of the file",
            "move it to the first line, with nothing before it");
  } else {
    not_xml({begin, pos_}, "a processing instruction stands in the file", "take it out, or make it a comment");
  }
}

void XmlScan::read_comment() {
  const std::size_t begin = pos_;
  const Because here{"the comment begins here", where({begin, begin + 4})};
  skip_to_end_of("-->", {begin, begin + 4}, "a comment", here);
  if (stopped_) return;
  // `--` may stand at the very end only, and `--->` is `--` followed by a hyphen.
  const std::size_t hyphens = bytes_.find("--", begin + 4);
  if (hyphens == pos_ - 3) return;
  if (hyphens >= begin + 6 && bytes_.compare(hyphens - 2, 4, "<!--") == 0) {
    not_xml({hyphens - 2, hyphens + 2}, "a comment begins inside a comment", "close the first one before it with `-->`",
            here);
    return;
  }
  not_xml({hyphens, hyphens + 2}, "`--` stands inside a comment", "write one hyphen, or a comma", here);
}

void XmlScan::read_cdata() {
  const std::size_t begin = pos_;
  skip_to_end_of("]]>", {begin, begin + 9}, "a CDATA section");
  if (stopped_) return;
  not_xml({begin, begin + 9}, "a CDATA section stands in the file", "write the text as it is, with `&lt;` and `&amp;`");
}

}  // namespace rushlight
