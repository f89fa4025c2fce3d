#include <algorithm>
#include <array>

#include "read/vetted_bytes.hpp"
#include "read/xml_characters.hpp"
#include "read/xml_scan.hpp"

namespace rushlight {

namespace {

constexpr std::array<std::string_view, 5> kEntities = {"amp", "apos", "gt", "lt", "quot"};
constexpr const char* kRightEntity = "write the character itself; `&amp;` for `&`, `&lt;` for `<`";
constexpr std::size_t kMostReferenceDigits = 8;  // U+10FFFF has seven decimal digits

/// The value of digits in this base; empty when one is no digit or there are none.
std::optional<char32_t> value_of_digits(std::string_view digits, char32_t base) {
  if (digits.empty() || digits.size() > kMostReferenceDigits) return std::nullopt;
  char32_t value = 0;
  for (const char c : digits) {
    char32_t digit = 99;
    if (c >= '0' && c <= '9') digit = static_cast<char32_t>(c - '0');
    if (c >= 'a' && c <= 'f') digit = static_cast<char32_t>(c - 'a' + 10);
    if (c >= 'A' && c <= 'F') digit = static_cast<char32_t>(c - 'A' + 10);
    if (digit >= base) return std::nullopt;
    value = value * base + digit;
  }
  return value;
}

}  // namespace

void XmlScan::read_text() {
  const std::size_t next = bytes_.find('<', pos_);
  Span span{pos_, next == std::string_view::npos ? bytes_.size() : next};
  pos_ = span.end;
  const bool blank_first = is_blank(bytes_[span.begin]);
  const bool blank_last = is_blank(bytes_[span.end - 1]);
  while (span.begin < span.end && is_blank(bytes_[span.begin])) ++span.begin;
  while (span.end > span.begin && is_blank(bytes_[span.end - 1])) --span.end;
  if (span.begin == span.end) {
    if (!open_.empty()) open_.back().after_blank = true;
    return;
  }
  if (open_.empty()) {
    if (findings.empty())
      not_xml(span, "text stands outside the outermost element", "take it out, or make it a comment");
    return;
  }
  check_text(span);
  Open& open = open_.back();
  MappedElement& element = map.elements[open.element];
  const Place place = place_of(span);
  element.text_place = element.texts.empty() ? place : place_of({element.texts.front().span.begin, span.end});
  element.texts.push_back({span, place, open.after_blank || blank_first});
  open.after_blank = blank_last;
}

void XmlScan::check_text(Span span) {
  const std::string_view until_end = bytes_.substr(0, span.end);
  for (std::size_t at = until_end.find("]]>", span.begin); at != std::string_view::npos && !stopped_;
       at = until_end.find("]]>", at + 3)) {
    not_xml({at, at + 3}, "`]]>` stands in a text", "write `]]&gt;`");
  }
  check_references(span);
  is_longer(span, kMostTextLength, "text length");
}

void XmlScan::check_references(Span span) {
  const std::string_view until_end = bytes_.substr(0, span.end);
  std::size_t at = until_end.find('&', span.begin);
  while (at != std::string_view::npos && !stopped_) at = until_end.find('&', check_reference(at, span.end));
}

/// Returns where to go on.
std::size_t XmlScan::check_reference(std::size_t ampersand, std::size_t end) {
  std::size_t at = ampersand + 1;
  const bool numeric = at < end && bytes_[at] == '#';
  if (numeric) ++at;
  const std::size_t name = at;
  for (CodePoint point = code_point_at(bytes_, at); at < end && may_continue_name(point.value);
       point = code_point_at(bytes_, at)) {
    at += point.size;
  }
  const bool closed = at < end && bytes_[at] == ';';
  const Span whole{ampersand, closed ? at + 1 : at};
  if (numeric && closed) {
    check_numeric_reference(whole);
    return whole.end;
  }
  if (!closed || at == name || !may_start_name(code_point_at(bytes_, name).value)) {
    not_xml({ampersand, ampersand + 1}, "a bare `&`", "write `&amp;`");
    return ampersand + 1;
  }
  const std::string_view entity = bytes_.substr(name, at - name);
  if (std::find(kEntities.begin(), kEntities.end(), entity) == kEntities.end()) {
    not_xml(whole, "`" + text_of(whole) + "` is not known", kRightEntity);
  }
  return whole.end;
}

void XmlScan::check_numeric_reference(Span reference) {
  const bool hexadecimal = bytes_[reference.begin + 2] == 'x';
  const std::size_t first = reference.begin + (hexadecimal ? 3u : 2u);
  const std::string_view digits = bytes_.substr(first, reference.end - 1 - std::min(first, reference.end - 1));
  const std::optional<char32_t> value = value_of_digits(digits, hexadecimal ? 16 : 10);
  if (!value) {
    not_xml(reference, "`" + text_of(reference) + "` is not a character's number", kRightEntity);
  } else if (const std::optional<std::string> name = name_if_forbidden(*value)) {
    report(reference, ForbiddenCharacter{*name});
  }
}

}  // namespace rushlight
