#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "read/source_map.hpp"

namespace rushlight {

/// One pass over UTF-8 bytes from `<` to `<`: makes the source map and finds what is not well-formed.
/// Private to this folder; vet_xml is the door. The map counts only when there are no findings.
class XmlScan {
 public:
  XmlScan(std::string_view bytes, std::size_t start, const Lines& lines, const FileName& file);

  void run();

  SourceMap map;
  std::vector<Finding> findings;

 private:
  struct Open {
    std::size_t element;
    bool after_blank;
    bool forgiven;  // a closing tag that does not fit was reported while this was open
  };
  enum class TagEnd { open, empty, broken };

  // xml_scan.cpp: the file from outside.
  void read_markup();
  void read_declaration();
  void read_instruction();
  void read_comment();
  void read_cdata();
  void finish();

  // xml_scan_tags.cpp
  void read_opening_tag();
  TagEnd read_attributes(MappedElement& element);
  bool read_attribute(MappedElement& element, bool after_blank);
  std::optional<std::size_t> next_attribute_in(Span value) const;
  void skip_unquoted_value(const MappedAttribute& attribute);
  void skip_curly_value();
  void keep_attribute(MappedElement& element, MappedAttribute attribute);
  void read_closing_tag();
  void close(const std::string& name, Span name_span);
  std::optional<Span> read_name();

  // xml_scan_text.cpp
  void read_text();
  void check_text(Span span);
  void check_references(Span span);
  std::size_t check_reference(std::size_t ampersand, std::size_t end);
  void check_numeric_reference(Span reference);

  bool at_end() const { return pos_ >= bytes_.size(); }
  bool sees(std::string_view word) const { return bytes_.substr(pos_).starts_with(word); }
  bool sees_name() const;
  bool skip_blanks();
  std::string text_of(Span span) const { return std::string(bytes_.substr(span.begin, span.end - span.begin)); }
  bool is_longer(Span span, std::size_t most, const char* what);
  Place place_of(Span span) { return lines_.place_of(span, line_); }
  Where where(Span span) const { return where_of(lines_.place_of(span), file_); }
  void report(Span span, Kind kind, std::optional<Because> because = std::nullopt);
  void not_xml(Span span, std::string what, std::string right, std::optional<Because> because = std::nullopt);
  void stop() { stopped_ = true; }
  void skip_to_end_of(std::string_view closing, Span opening, const std::string& what,
                      std::optional<Because> because = std::nullopt);

  std::string_view bytes_;
  std::size_t pos_;
  const Lines& lines_;
  std::size_t line_ = 0;  // where the scan is
  const FileName& file_;
  std::vector<Open> open_;
  bool stopped_ = false;
  std::vector<std::string> left_open_;  // told as not closed: their closing tags stand too late
  bool doubtful_ = false;  // a quote sign is probably missing: what follows in this tag is not reported again
};

}  // namespace rushlight
