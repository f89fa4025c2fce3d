#include <algorithm>
#include <utility>

#include "read/vetted_bytes.hpp"
#include "read/xml_characters.hpp"
#include "read/xml_scan.hpp"

namespace rushlight {

namespace {

constexpr std::size_t kUsualAttributes = 4;
constexpr std::size_t kSpelledWrong = 4;  // of two shorter names, such as `en` and `es`, either may be meant

bool is_plain_name_letter(char c) {
  return (c >= 'a' && c <= 'z') || c == '-' || (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z');
}

}  // namespace

std::optional<Span> XmlScan::read_name() {
  const Span name{pos_, [&] {
                    std::size_t at = pos_;
                    while (at < bytes_.size() && is_plain_name_letter(bytes_[at])) ++at;  // nearly all
                    for (CodePoint point = code_point_at(bytes_, at); point.size != 0 && may_continue_name(point.value);
                         point = code_point_at(bytes_, at)) {
                      at += point.size;
                    }
                    return at;
                  }()};
  pos_ = name.end;
  if (is_longer(name, kMostNameLength, "name length")) {
    stop();
    return std::nullopt;
  }
  if (!at_end() && bytes_[pos_] == ':') {
    not_xml({name.begin, pos_ + 1}, "a name holds a colon", "write the name without it");
    stop();
    return std::nullopt;
  }
  return name;
}

void XmlScan::read_opening_tag() {
  const std::size_t begin = pos_++;
  const std::optional<Span> name = read_name();
  if (!name) return;
  if (open_.empty() && !map.elements.empty()) {
    const MappedElement& first = map.elements.front();
    report(*name, NotXml{"a second outermost element begins here", "keep all in one `<" + first.name + ">`"},
           Because{"the first one is `" + first.name + "`", where_of(first.name_place, file_)});
    return stop();
  }
  if (open_.size() >= kMostDepth) {
    report(*name, TooLarge{"depth", static_cast<long long>(open_.size() + 1), static_cast<long long>(kMostDepth)});
    return stop();
  }
  MappedElement element{text_of(*name), std::nullopt, *name, place_of(*name), {begin, begin},
                        {begin, begin}, {},           {},    {0, 0, 0}};
  if (!open_.empty()) {
    element.parent = open_.back().element;
    open_.back().after_blank = false;  // text behind a child begins anew
  }
  doubtful_ = false;
  const TagEnd end = read_attributes(element);
  if (end == TagEnd::broken) return stop();
  element.tag.end = pos_;
  element.content = {pos_, pos_};
  map.elements.push_back(std::move(element));
  if (end == TagEnd::open) open_.push_back({map.elements.size() - 1, false, false});
}

XmlScan::TagEnd XmlScan::read_attributes(MappedElement& element) {
  while (!stopped_) {
    const bool after_blank = skip_blanks();
    if (sees(">")) {
      ++pos_;
      return TagEnd::open;
    }
    if (sees("/>")) {
      pos_ += 2;
      return TagEnd::empty;
    }
    if (at_end() || sees("<")) {
      if (!doubtful_) not_xml(element.name_span, "the tag of `" + element.name + "` is not ended", "end it with `>`");
      return at_end() ? TagEnd::broken : TagEnd::open;
    }
    if (!sees_name()) {
      const Span sign{pos_, pos_ + code_point_at(bytes_, pos_).size};
      if (!doubtful_)
        not_xml(sign, "`" + text_of(sign) + "` cannot stand in a tag", "write attributes as `name=\"value\"`");
      return TagEnd::broken;
    }
    if (!read_attribute(element, after_blank)) return TagEnd::broken;
  }
  return TagEnd::broken;
}

/// False when the tag cannot be read on.
bool XmlScan::read_attribute(MappedElement& element, bool after_blank) {
  const std::optional<Span> name = read_name();
  if (!name) return false;
  MappedAttribute attribute{text_of(*name), *name, place_of(*name), {0, 0}, {0, 0, 0}};
  if (!after_blank) {
    if (doubtful_) return false;
    not_xml(*name, "no blank stands before `" + attribute.name + "`", "put a blank between the attributes");
  }
  skip_blanks();
  if (!sees("=")) {
    if (doubtful_) return false;
    not_xml(*name, "`" + attribute.name + "` has no value", "write `" + attribute.name + "=\"...\"`");
    pos_ = name->end;
    return true;
  }
  ++pos_;
  skip_blanks();
  if (is_curly_quote(code_point_at(bytes_, pos_).value)) {
    skip_curly_value();
    return true;
  }
  if (!sees("\"") && !sees("'")) {
    skip_unquoted_value(attribute);
    return true;
  }
  const std::size_t quote = pos_;
  const std::size_t close = bytes_.find(bytes_[quote], quote + 1);
  if (close == std::string_view::npos) {
    if (!doubtful_)
      not_xml(*name, "the value of `" + attribute.name + "` has no closing quote sign", "close it with a quote sign");
    return false;
  }
  attribute.value = {quote + 1, close};
  pos_ = close + 1;
  if (const auto next = next_attribute_in(attribute.value)) {
    not_xml(*name, "the value of `" + attribute.name + "` has no closing quote sign", "close it with a quote sign");
    attribute.value.end = pos_ = *next;
  }
  keep_attribute(element, std::move(attribute));
  return true;
}

/// Where the value holds the next attribute up to its quote sign, since its own closing one is missing:
/// `id="low urgency="home"`.
std::optional<std::size_t> XmlScan::next_attribute_in(Span value) const {
  const bool goes_on = value.end + 1 < bytes_.size() && is_plain_name_letter(bytes_[value.end + 1]);
  if (!goes_on || value.begin == value.end || bytes_[value.end - 1] != '=') return std::nullopt;
  if (bytes_.substr(value.begin, value.end - value.begin).find('<') != std::string_view::npos) return std::nullopt;
  std::size_t name = value.end - 1;
  while (name > value.begin && is_plain_name_letter(bytes_[name - 1])) --name;
  const bool behind_blank = name > value.begin && is_blank(bytes_[name - 1]);
  return behind_blank && name + 1 < value.end ? std::optional(name - 1) : std::nullopt;
}

void XmlScan::skip_unquoted_value(const MappedAttribute& attribute) {
  const std::size_t begin = pos_;
  while (!at_end() && !is_blank(bytes_[pos_]) && !sees(">") && !sees("/>") && !sees("<")) ++pos_;
  const Span value = begin == pos_ ? attribute.name_span : Span{begin, pos_};
  not_xml(value, "the value of `" + attribute.name + "` has no quote signs", "write `" + attribute.name + "=\"...\"`");
}

void XmlScan::skip_curly_value() {
  const std::size_t begin = pos_;
  bool closed = false;
  // The closing sign may be a straight one; without any, what a tag is made of ends the search.
  for (pos_ += code_point_at(bytes_, pos_).size; !closed && !at_end() && !sees("<") && !sees(">") && !sees("=");) {
    const CodePoint point = code_point_at(bytes_, pos_);
    closed = is_curly_quote(point.value) || point.value == '"' || point.value == '\'';
    pos_ += point.size;
  }
  not_xml({begin, pos_}, "the quote signs are curly", "write straight ones: `\"`");
  if (!closed) doubtful_ = true;
}

void XmlScan::keep_attribute(MappedElement& element, MappedAttribute attribute) {
  const std::size_t angle = bytes_.find('<', attribute.value.begin);
  if (angle < attribute.value.end) {
    not_xml({angle, angle + 1}, "`<` stands in the value of `" + attribute.name + "`",
            "write `&lt;`, or close the value with a quote sign before it");
    doubtful_ = true;
  }
  check_references(attribute.value);
  is_longer(attribute.value, kMostTextLength, "value length");
  Span trimmed = attribute.value;
  while (trimmed.begin < trimmed.end && is_blank(bytes_[trimmed.begin])) ++trimmed.begin;
  while (trimmed.end > trimmed.begin && is_blank(bytes_[trimmed.end - 1])) --trimmed.end;
  if (trimmed.begin == trimmed.end) trimmed = {attribute.value.begin - 1, attribute.value.end + 1};
  attribute.value_place = place_of(trimmed);

  const auto same = std::find_if(element.attributes.begin(), element.attributes.end(),
                                 [&](const MappedAttribute& earlier) { return earlier.name == attribute.name; });
  if (same != element.attributes.end()) {
    report(attribute.name_span, RepeatedKey{attribute.name},
           Because{"it stands here already", where_of(same->name_place, file_)});
  } else if (element.attributes.size() >= kMostAttributes) {
    report(attribute.name_span,
           TooLarge{"attributes of one element", static_cast<long long>(element.attributes.size() + 1),
                    static_cast<long long>(kMostAttributes)});
    stop();
  } else {
    if (element.attributes.empty()) element.attributes.reserve(kUsualAttributes);
    element.attributes.push_back(std::move(attribute));
  }
}

void XmlScan::read_closing_tag() {
  const std::size_t begin = pos_;
  pos_ += 2;
  if (!sees_name()) {
    not_xml({begin, pos_}, "a closing tag has no name", "write the name of what it closes");
    return stop();
  }
  const std::optional<Span> name = read_name();
  if (!name) return;
  skip_blanks();
  if (!sees(">")) {
    not_xml(*name, "the closing tag of `" + text_of(*name) + "` is not ended", "end it with `>`");
    return stop();
  }
  const std::size_t tag_end = ++pos_;
  pos_ = begin;
  close(text_of(*name), *name);
  pos_ = tag_end;
}

/// Takes `pos_` as the place where the content ends.
void XmlScan::close(const std::string& name, Span name_span) {
  const auto fits = std::find_if(open_.rbegin(), open_.rend(),
                                 [&](const Open& open) { return map.elements[open.element].name == name; });
  if (fits == open_.rend()) {
    const auto late = std::find(left_open_.begin(), left_open_.end(), name);
    if (late != left_open_.end()) {
      left_open_.erase(late);
      return;
    }
    if (open_.empty()) {
      not_xml(name_span, "`" + name + "` is closed but not open", "take this tag out");
      return stop();
    }
    MappedElement& innermost = map.elements[open_.back().element];
    if (name.size() >= kSpelledWrong && near_word(name, {innermost.name})) {
      report(innermost.name_span,
             NotXml{"what is opened as `" + innermost.name + "` is closed as `" + name + "`",
                    "write the same name in both"},
             Because{"it is closed here", where(name_span)});
      innermost.content.end = pos_;
      open_.pop_back();
      return;
    }
    report(name_span,
           NotXml{"`" + name + "` is closed while `" + innermost.name + "` is open",
                  "close it with `</" + innermost.name + ">`"},
           Because{"`" + innermost.name + "` is opened here", where_of(innermost.name_place, file_)});
    open_.back().forgiven = true;
    return;
  }
  const auto depth = static_cast<std::size_t>(open_.rend() - fits);  // of the element that is closed, from 1
  while (open_.size() > depth) {
    const MappedElement& unclosed = map.elements[open_.back().element];
    if (!open_.back().forgiven) {
      report(unclosed.name_span,
             NotXml{"`" + unclosed.name + "` is not closed", "close it with `</" + unclosed.name + ">`"},
             Because{"`" + name + "` around it ends here", where(name_span)});
      left_open_.push_back(unclosed.name);
    }
    open_.pop_back();
  }
  map.elements[open_.back().element].content.end = pos_;
  open_.pop_back();
}

}  // namespace rushlight
