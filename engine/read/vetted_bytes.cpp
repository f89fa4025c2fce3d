#include "read/vetted_bytes.hpp"

#include <utility>

#include "finding/byte_order_mark.hpp"
#include "read/xml_characters.hpp"
#include "read/xml_scan.hpp"

namespace rushlight {

namespace {


/// Each run of forbidden characters is one finding; the first bytes that are not UTF-8 end the search.
std::vector<Finding> character_findings(std::string_view bytes, std::size_t start, const Lines& lines,
                                        const FileName& file) {
  std::vector<Finding> findings;
  const auto report = [&](Span span, Kind kind) {
    findings.push_back({Severity::error, where_of(lines.place_of(span), file), std::move(kind), std::nullopt});
  };
  std::size_t at = start;
  while (at < bytes.size() && findings.size() < kMostVettingFindings) {
    if (bytes[at] >= ' ' && bytes[at] < '\x7F') {  // nearly all of a file
      ++at;
      continue;
    }
    const CodePoint point = code_point_at(bytes, at);
    if (point.size == 0) {
      report({at, at + 1}, NotUtf8{});
      return findings;
    }
    const std::size_t first = at;
    at += point.size;
    const std::optional<std::string> name = name_if_forbidden(point.value);
    if (!name) continue;
    for (CodePoint next = code_point_at(bytes, at); next.size != 0 && name_if_forbidden(next.value);
         next = code_point_at(bytes, at)) {
      at += next.size;
    }
    report({first, at}, ForbiddenCharacter{*name});
  }
  return findings;
}

}  // namespace

Read<VettedXml> vet_xml(std::string bytes, FileName file_name) {
  if (bytes.size() > kMostBytes) {
    const TooLarge kind{"file size in bytes", static_cast<long long>(bytes.size()), static_cast<long long>(kMostBytes)};
    return {std::nullopt, {{Severity::error, {std::move(file_name), 0, 0, 0}, kind, std::nullopt}}};
  }
  const bool marked = std::string_view(bytes).starts_with(kByteOrderMark);
  const std::size_t start = marked ? kByteOrderMark.size() : 0;
  const Lines lines(bytes);
  std::vector<Finding> findings = character_findings(bytes, start, lines, file_name);
  if (!findings.empty()) return {std::nullopt, std::move(findings)};

  XmlScan scan(bytes, start, lines, file_name);
  scan.run();
  if (!scan.findings.empty()) {
    sort_findings(scan.findings);
    return {std::nullopt, std::move(scan.findings)};
  }
  return {VettedXml{std::move(bytes), std::move(file_name), marked, std::move(scan.map)}, {}};
}

}  // namespace rushlight
