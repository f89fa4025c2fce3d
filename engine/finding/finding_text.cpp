#include <algorithm>

#include "finding/finding.hpp"
#include "finding/quoted.hpp"
#include "finding/told_finding.hpp"

namespace rushlight {
namespace {

constexpr std::size_t kLineNumberWidth = 5;

std::string place_of(const Where& where) {
  std::string place = one_line(where.file.text());
  if (where.line == 0) return place;
  place += ":" + std::to_string(where.line);
  if (where.column > 0) place += ":" + std::to_string(where.column);
  return place;
}

// The line a finding shows ends where the file's line ends, whoever cut it out.
std::string_view without_line_end(std::string_view line) { return line.substr(0, line.find_first_of("\r\n")); }

// One sign for each code point before the mark; tabs are echoed so that the mark stands under its word at any tab
// width.
std::string caret_line(std::string_view shown_line, const Where& where) {
  const std::size_t total = code_points(shown_line);
  const std::size_t before = std::min<std::size_t>(where.column > 0 ? where.column - 1 : 0, total);
  std::string carets;
  std::size_t passed = 0;
  for (const char byte : shown_line) {
    if ((static_cast<unsigned char>(byte) & 0xC0U) == 0x80U) continue;  // inside a code point
    if (passed++ == before) break;
    carets += byte == '\t' ? '\t' : ' ';
  }
  const std::size_t room = std::max<std::size_t>(total - before, 1);
  const std::size_t length = std::clamp<std::size_t>(where.length, 1, room);
  return carets + "^" + std::string(length - 1, '~');
}

void add_source_lines(ToldFinding& told, const Where& where, const std::string& line_text) {
  const std::string shown = one_line(without_line_end(line_text));
  std::string number = std::to_string(where.line);
  if (number.size() < kLineNumberWidth) number.insert(0, kLineNumberWidth - number.size(), ' ');
  told.line = number + " | " + shown;
  told.caret = std::string(number.size(), ' ') + " | " + caret_line(shown, where);
}

std::string because_text(const Because& because, const Where& here) {
  std::string text = one_line(because.text);
  if (!because.where) return text;
  if (because.where->file == here.file && because.where->line > 0) {
    return text + " (line " + std::to_string(because.where->line) + ")";
  }
  return text + " (" + place_of(*because.where) + ")";
}

}  // namespace

ToldFinding told_finding(const Finding& finding, const std::optional<std::string>& line_text) {
  ToldFinding told{place_of(finding.where), sentence(finding.kind), "", "", "", remedy(finding.kind)};
  if (line_text && finding.where.line > 0) add_source_lines(told, finding.where, *line_text);
  if (finding.because) told.because = because_text(*finding.because, finding.where);
  return told;
}

std::string text_from_finding(const Finding& finding, const std::optional<std::string>& line_text) {
  const ToldFinding told = told_finding(finding, line_text);
  std::string text = told.place + (finding.severity == Severity::error ? ": error: " : ": warning: ") + told.sentence;
  if (!told.line.empty()) text += "\n" + told.line + "\n" + told.caret;
  if (!told.because.empty()) text += "\n  because  " + told.because;
  if (!told.right.empty()) text += "\n  try      " + told.right;
  return text;
}

}  // namespace rushlight
