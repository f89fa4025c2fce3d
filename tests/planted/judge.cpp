#include "planted/judge.hpp"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>

#include "cli/protocol_set.hpp"
#include "finding/property.hpp"
#include "planted/same_decisions.hpp"
#include "read/resolved_from_xml.hpp"

namespace rushlight::planted {
namespace {

std::string bytes_of(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

/// The part of the file that a reader has before the eyes when the finding names it.
Markup::Element part_around(const Markup& file, Markup::Element element) {
  for (Markup::Element at = element;;) {
    for (const char* part : {"step", "dose", "watch", "opening", "worse", "food"}) {
      if (file.name(at) == part) return at;
    }
    const auto outer = file.parent(at);
    if (!outer || file.name(*outer) == "protocol" || file.name(*outer) == "thresholds" || file.name(*outer) == "facts")
      return at;
    at = *outer;
  }
}

std::uint32_t lines_from(const Markup& file, Markup::Element element, std::uint32_t line) {
  const std::uint32_t first = file.first_line(element), last = file.last_line(element);
  return line < first ? first - line : line > last ? line - last : 0;
}

/// How far the finding, or its other end, stands from what was changed; nothing when it neither stands in that part of
/// the file nor speaks of it.
std::optional<std::uint32_t> lines_to(const Markup& file, const Fault& fault, const Finding& finding) {
  const Markup::Element part = part_around(file, fault.at);
  std::vector<Markup::Element> parts{part};
  for (const Markup::Element also : fault.also) parts.push_back(also);
  std::optional<std::uint32_t> nearest;
  const auto look = [&](const Where& where) {
    if (where.file != file.file() || where.line == 0) return;
    for (const Markup::Element each : parts) {
      if (lines_from(file, each, where.line) > 0) continue;
      const std::uint32_t lines = each == part ? lines_from(file, fault.at, where.line) : 0;
      if (!nearest || lines < *nearest) nearest = lines;
    }
  };
  look(finding.where);
  if (finding.because && finding.because->where) look(*finding.because->where);
  if (nearest) return nearest;
  const bool names = sentence(finding.kind).find("`" + file.value(part, "id") + "`") != std::string::npos;
  return names ? std::optional(lines_from(file, fault.at, finding.where.line)) : std::nullopt;
}

bool same_after(const Markup& file, const Fault& fault) {
  const auto step = file.around(fault.at, "step");
  if (!step) return false;
  const Read<Protocol> before = resolved_from_xml(file.bytes(), file.file());
  const Read<Protocol> after = resolved_from_xml(edited(file.bytes(), fault.edits), file.file());
  return before.value && after.value && decides_the_same(*before.value, *after.value, file.value(*step, "id"));
}

}  // namespace

ShippedSet shipped_set(const std::string& name) {
  ShippedSet set{name, {}, {}};
  const std::string folder = std::string(RUSHLIGHT_SOURCE_DIR) + "/protocols/" + name;
  for (const auto& entry : std::filesystem::directory_iterator(folder)) {
    if (entry.path().extension() != ".xml") continue;
    const std::string file = entry.path().filename().string();
    set.files.push_back(KeptFile{file, bytes_of(entry.path().string())});
  }
  std::sort(set.files.begin(), set.files.end(), [](const KeptFile& a, const KeptFile& b) { return a.name < b.name; });
  for (const KeptFile& file : set.files) {
    if (file.bytes.find("<protocol ") != std::string::npos) set.protocols.emplace_back(file.name, file.bytes);
  }
  return set;
}

std::vector<Finding> findings_with(const ShippedSet& set, const Markup& file, const Fault& fault) {
  std::vector<KeptFile> files = set.files;
  for (KeptFile& each : files) {
    if (each.name == file.file()) each.bytes = edited(each.bytes, fault.edits);
  }
  return set_of_files(files).findings;
}

Verdict judged(const ShippedSet& set, const Operator& slip, const Markup& file, const Fault& fault) {
  std::optional<Verdict> owned, other, law, example;
  for (const Finding& finding : findings_with(set, file, fault)) {
    const std::string id = id_of(finding.kind);
    const Property property = property_of(finding.kind);
    if (property == Property::own_laws_kept) {
      if (!law) law = Verdict{Verdict::Kind::by_law, id, 0};
      continue;
    }
    if (property == Property::examples_come_out) {
      if (!example) example = Verdict{Verdict::Kind::by_example, id, 0};
      continue;
    }
    const auto lines = lines_to(file, fault, finding);
    const bool own = slip.owner != Owner::proof || std::find(slip.ids.begin(), slip.ids.end(), id) != slip.ids.end();
    if (own && lines && (!owned || *lines < owned->lines)) owned = Verdict{Verdict::Kind::by_proof, id, *lines};
    if (!other) other = Verdict{Verdict::Kind::by_another, id, 0};
  }
  if (owned) return *owned;
  if (other) return *other;
  if (law) return *law;
  if (example) return *example;
  if (slip.in_rules && same_after(file, fault)) return Verdict{Verdict::Kind::same, "", 0};
  return Verdict{Verdict::Kind::nobody, "", 0};
}

}  // namespace rushlight::planted
