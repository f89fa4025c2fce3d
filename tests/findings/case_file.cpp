#include "findings/case_file.hpp"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <sstream>
#include <stdexcept>

#include "read/source_map.hpp"
#include "read/xml_characters.hpp"

namespace rushlight::tests {

namespace {

const std::string kCases = std::string(RUSHLIGHT_SOURCE_DIR) + "/tests/findings/";

/// The bytes of `length` code points from `column` on.
std::string underlined(const Where& where, const std::string& bytes) {
  const auto line = Lines(bytes).line(where.line);
  if (!line) return "";
  std::string text;
  std::uint32_t column = 0;
  for (const char c : *line) {
    if ((static_cast<unsigned char>(c) & 0xC0u) != 0x80u) ++column;
    if (column >= where.column && column < where.column + where.length) text += c;
  }
  return text;
}

/// Characters that cannot be read in an editor become \x{...}.
std::string printable(const std::string& text) {
  std::ostringstream out;
  for (std::size_t at = 0; at < text.size();) {
    const CodePoint point = code_point_at(text, at);
    if (point.size == 0) {
      out << "\\x{" << std::hex << unsigned{static_cast<unsigned char>(text[at++])} << "}";
      continue;
    }
    if (name_if_forbidden(point.value)) {
      out << "\\x{" << std::hex << static_cast<unsigned long>(point.value) << "}";
    } else {
      out << text.substr(at, point.size);
    }
    at += point.size;
  }
  return out.str();
}

std::string trimmed(const std::string& line) {
  const std::size_t first = line.find_first_not_of(" \t\r");
  if (first == std::string::npos) return "";
  return line.substr(first, line.find_last_not_of(" \t\r") - first + 1);
}

std::vector<std::string> expectations_in(const std::string& text, const std::string& mark) {
  std::vector<std::string> expected;
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) {
    const std::string clean = trimmed(line);
    if (clean.rfind(mark, 0) == 0 && clean.size() > mark.size()) expected.push_back(trimmed(clean.substr(mark.size())));
  }
  return expected;
}

}  // namespace

std::string named(const Finding& finding, const std::string& bytes) {
  const std::string severity = finding.severity == Severity::warning ? "warning " : "";
  return severity + id_of(finding.kind) + " \"" + printable(underlined(finding.where, bytes)) + "\"";
}

std::string bytes_of(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  if (!file) throw std::runtime_error("cannot read " + path);
  return {std::istreambuf_iterator<char>(file), {}};
}

CaseFile case_file(const std::string& path) {
  CaseFile read{path.substr(kCases.size()), bytes_of(path), {}};
  const std::string beside = path.substr(0, path.rfind('.')) + ".expect";
  if (std::filesystem::exists(beside)) {
    read.expected = expectations_in(bytes_of(beside), "");
    return read;
  }
  const std::size_t begin = read.bytes.rfind("<!-- expect:");
  const std::size_t end = read.bytes.rfind("-->");
  if (begin == std::string::npos || end == std::string::npos || end < begin) return read;
  read.expected = expectations_in(read.bytes.substr(begin + 5, end - begin - 5), "expect:");
  return read;
}

std::vector<std::string> case_paths(const std::string& folder) {
  std::vector<std::string> paths;
  for (const auto& entry : std::filesystem::directory_iterator(kCases + folder)) {
    if (entry.is_regular_file() && entry.path().extension() != ".expect") paths.push_back(entry.path().string());
  }
  std::sort(paths.begin(), paths.end());
  if (paths.empty()) throw std::runtime_error("no cases in " + kCases + folder);
  return paths;
}

}  // namespace rushlight::tests
