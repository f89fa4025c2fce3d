#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>
#include <string_view>

#include "read/protocol_from_xml.hpp"
#include "read/vetted_bytes.hpp"
#include "read/xml_tree.hpp"

// Any bytes at all: nothing crashes, a value is absent only together with an error, bytes that passed the vetting are
// read by the tree library in the same way, and a finding never points outside its file.

namespace {

void require(bool holds) {
  if (!holds) std::abort();
}

void check_places(const std::vector<rushlight::Finding>& findings, std::string_view bytes) {
  const rushlight::Lines lines(bytes);
  for (const rushlight::Finding& finding : findings) {
    if (finding.where.line == 0) continue;
    const auto line = lines.line(finding.where.line);
    require(line.has_value());
    require(finding.where.column >= 1 && finding.where.column - 1 + finding.where.length <= line->size());
    require(!rushlight::text_from_finding(finding, line).empty());
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string bytes(reinterpret_cast<const char*>(data), size);
  const auto vetted = rushlight::vet_xml(bytes, "fuzz.xml");
  require(vetted.value.has_value() != rushlight::has_error(vetted.findings));
  if (vetted.value) require(rushlight::tree_from_vetted(*vetted.value).value.has_value());

  const auto draft = rushlight::protocol_from_xml(bytes, "fuzz.xml");
  require(draft.value.has_value() || rushlight::has_error(draft.findings));
  check_places(draft.findings, bytes);
  return 0;
}
