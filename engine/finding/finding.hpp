#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "finding/file_name.hpp"
#include "finding/kinds.hpp"

namespace rushlight {

/// Where something stands in a file. Lines and columns start at 1; columns count code points.
/// `length` is how many code points to underline. Line 0 means "the file as a whole".
struct Where {
  FileName file;
  std::uint32_t line;
  std::uint32_t column;
  std::uint32_t length;
  friend bool operator==(const Where&, const Where&) = default;
};

enum class Severity : std::uint8_t { error, warning };

/// The other end of a conflict. The text does not name the place itself: "(line 33)" is added from `where`.
struct Because {
  std::string text;
  std::optional<Where> where;
};

/// One thing a reader, a check or an edit has to say. What is wrong is a type (kinds.hpp); its sentence and its
/// remedy are computed from the type's fields by the functions below and nowhere else.
struct Finding {
  Severity severity;
  Where where;
  Kind kind;
  std::optional<Because> because;
};

/// One line, lower case, no full stop, the clinic's own words in backticks, no program words.
std::string sentence(const Kind& kind);

/// What would be right; empty when nothing certain can be said.
std::string remedy(const Kind& kind);

/// The stable id of a kind, for JSON and the docs: "unknown-element".
std::string id_of(const Kind& kind);

/// "file:line:column: error: sentence", the source line with a caret line when `line_text` is given, then because and try.
std::string text_from_finding(const Finding& finding, const std::optional<std::string>& line_text);

/// By file, then line, then column; findings of one place keep their order.
void sort_findings(std::vector<Finding>& findings);

bool has_error(const std::vector<Finding>& findings);

/// A value that could be read, and everything there is to say about it. Absent only together with an error finding.
template <class Value>
struct Read {
  std::optional<Value> value;
  std::vector<Finding> findings;
};

/// The known word within edit distance 2 of `written` (two neighbours swapped count as one change), when no other is
/// as near; a word of two or three letters bears one change only. Else the only known word that goes on with a hyphen
/// behind what is written. Empty otherwise.
std::optional<std::string> near_word(const std::string& written, const std::vector<std::string>& known);

}  // namespace rushlight
