#include "cli/compare_command.hpp"

#include <filesystem>
#include <ostream>

#include "cli/compare_json.hpp"
#include "cli/compare_text.hpp"
#include "cli/map_named.hpp"
#include "cli/picture_file.hpp"
#include "cli/plain_text.hpp"
#include "cli/print_findings.hpp"
#include "cli/protocol_set.hpp"
#include "cli/read_file.hpp"
#include "read/resolved_from_xml.hpp"
#include "read/vetted_bytes.hpp"
#include "verify/check.hpp"

namespace rushlight {
namespace {

/// The protocols of one side, each by itself: a visit is told as a visit.
struct Versions {
  std::vector<Protocol> protocols;
  std::vector<std::string> bytes;  // of their files, in the same order
  std::string laws;                // the bytes of safety.xml
  bool refused = false;
};

Versions refused(std::ostream& err, const std::vector<Finding>& findings, const FileTexts& texts) {
  print_findings(err, findings, texts);
  Versions versions;
  versions.refused = true;
  return versions;
}

/// One file, whatever lies beside it.
Versions version_in(const std::string& path, std::ostream& err) {
  FileBytes bytes = bytes_of_file(path, kMostBytes);
  if (auto* finding = std::get_if<Finding>(&bytes)) return refused(err, {*finding}, {});
  const std::string& text = std::get<std::string>(bytes);
  Read<Protocol> read = resolved_from_xml(text, path);
  std::vector<Finding> findings = read.findings;
  if (read.value) {
    const std::vector<Finding> more = check(*read.value).findings;
    findings.insert(findings.end(), more.begin(), more.end());
  }
  if (has_error(findings)) return refused(err, findings, {{path, text}});
  Versions versions;
  versions.protocols.push_back(std::move(*read.value));
  versions.bytes.push_back(text);
  return versions;
}

Versions versions_at(const std::string& path, std::ostream& err) {
  std::error_code error;
  const bool is_folder = std::filesystem::is_directory(path, error);
  const bool is_there = std::filesystem::exists(path, error);
  const bool is_name = path.find('/') == std::string::npos && path.find('.') == std::string::npos;
  if (!is_folder && (is_there || !is_name)) return version_in(path, err);
  const ProtocolSet set = is_folder ? set_in_folder(path, "") : embedded_set(path);
  if (has_error(set.findings)) return refused(err, set.findings, set.texts);
  Versions versions;
  for (const LoadedProtocol& loaded : set.alone) {
    versions.protocols.push_back(loaded.checked.protocol());
    versions.bytes.push_back(loaded.bytes);
  }
  for (const auto& [name, text] : set.texts) {
    if (std::filesystem::path(name).filename() == "safety.xml") versions.laws = text;
  }
  return versions;
}

const Protocol* named(const Versions& versions, const std::string& name) {
  for (const Protocol& protocol : versions.protocols) {
    if (protocol.name == name) return &protocol;
  }
  return nullptr;
}

int refused(std::ostream& err, const std::string& path, Kind kind) {
  print_findings(err, {Finding{Severity::error, Where{path, 0, 0, 0}, std::move(kind), {}}}, {});
  return 2;
}

// The first protocol of both that has the step.
int draw_map(const CompareOptions& options, const Versions& was, const Versions& now, std::ostream& out,
             std::ostream& err) {
  if (!is_picture_file(options.out))
    return refused(err, options.out, WrongUse{"a picture is *.svg or *.png", "write `--out FILE.svg`"});
  const std::string step = options.map.substr(0, options.map.find(':'));
  std::vector<std::string> known;
  for (const Protocol& protocol : was.protocols) {
    const bool single = was.protocols.size() == 1 && now.protocols.size() == 1;
    const Protocol* other = single ? &now.protocols.front() : named(now, protocol.name);
    for (const Step& each : protocol.steps) known.push_back(each.name);
    const auto newer = other != nullptr ? other->step_named(step) : std::nullopt;
    if (!protocol.step_named(step) || !newer) continue;
    const Or<ComparisonMap> drawn = map_of(side_by_side(protocol, *other), *newer, options.map, options.given);
    if (const auto* kind = std::get_if<Kind>(&drawn)) return refused(err, options.was, *kind);
    const auto& [picture, differs] = std::get<ComparisonMap>(drawn);
    if (auto kind = written(options.out, picture)) return refused(err, options.out, std::move(*kind));
    out << options.out << ": " << picture.paper.name << '\n';
    return differs ? 1 : 0;
  }
  return refused(err, options.was, UnknownId{step, "step of both versions", known});
}

void print(std::ostream& out, const Compared& compared) {
  out << compared.protocol << '\n';
  if (compared.same_file) {
    out << "Nothing changes: the file is the same.\n\n";
    return;
  }
  if (!compared.both) {
    out << (compared.only_was ? "  This protocol is gone.\n" : "  This protocol is new.\n");
    return;
  }
  out << text_from_differences(told_differences(*compared.both)) << '\n';
}

// A protocol is compared by itself, so the same bytes decide the same. How much that is, only a walk can count.
bool is_same_file(const Versions& was, const Versions& now, const Protocol& one, const Protocol& other) {
  const auto place = [](const Versions& versions, const Protocol& protocol) {
    return static_cast<std::size_t>(&protocol - versions.protocols.data());
  };
  return was.bytes[place(was, one)] == now.bytes[place(now, other)];
}

}  // namespace

int compare_command(const CompareOptions& options, std::ostream& out, std::ostream& err) {
  const Versions was = versions_at(options.was, err);
  const Versions now = options.now == options.was ? was : versions_at(options.now, err);
  if (was.refused || now.refused) return 2;
  if (!options.map.empty()) return draw_map(options, was, now, out, err);
  const Detail detail = options.json || options.all ? Detail::every_case : Detail::worst_first;
  std::vector<Compared> all;
  for (const Protocol& protocol : was.protocols) {
    const Protocol* other = named(now, protocol.name);
    // Two files named one by one are compared whatever they are called.
    if (other == nullptr && was.protocols.size() == 1 && now.protocols.size() == 1) other = &now.protocols.front();
    Compared compared{protocol.name, {}, other == nullptr};
    compared.same_file = other != nullptr && detail == Detail::worst_first && is_same_file(was, now, protocol, *other);
    if (other != nullptr && !compared.same_file) compared.both = compare(protocol, *other, detail);
    all.push_back(std::move(compared));
  }
  for (const Protocol& protocol : now.protocols) {
    const bool single = was.protocols.size() == 1 && now.protocols.size() == 1;
    if (!single && named(was, protocol.name) == nullptr) all.push_back(Compared{protocol.name, {}, false});
  }
  const bool laws = was.laws != now.laws;
  bool changed = laws, gave_up = false;
  for (const Compared& compared : all) {
    changed = changed || (!compared.same_file && (!compared.both || !compared.both->changes.empty()));
    gave_up = gave_up || (compared.both && compared.both->gave_up);
  }
  if (options.json) {
    out << json_from_compared(all, laws) << '\n';
  } else {
    for (const Compared& compared : all) print(out, compared);
    if (laws) out << "The clinic's laws in safety.xml are other ones.\n";
    out << "What changes is shown, not whether it is right: that stays the clinic's decision.\n";
  }
  return changed || gave_up ? 1 : 0;
}

}  // namespace rushlight
