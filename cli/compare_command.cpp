#include "cli/compare_command.hpp"

#include <algorithm>
#include <filesystem>
#include <future>
#include <optional>
#include <ostream>
#include <set>

#include "cli/assembled_set.hpp"
#include "cli/compare_json.hpp"
#include "cli/compare_text.hpp"
#include "cli/embedded.hpp"
#include "cli/fresh_findings.hpp"
#include "cli/map_named.hpp"
#include "cli/picture_file.hpp"
#include "cli/plain_text.hpp"
#include "cli/print_findings.hpp"
#include "cli/protocol_set.hpp"
#include "cli/read_file.hpp"
#include "cli/shell_word.hpp"
#include "cli/told_laws.hpp"
#include "finding/quoted.hpp"
#include "read/resolved_from_xml.hpp"
#include "read/vetted_bytes.hpp"
#include "verify/check.hpp"
#include "verify/renamed.hpp"

namespace rushlight {
namespace {

/// The protocols of one side, each by itself: a visit is told as a visit.
struct Versions {
  std::string path;
  std::vector<Protocol> protocols;
  std::vector<std::string> bytes;  // of their files, in the same order
  std::string laws;                // the bytes of safety.xml
  std::vector<Finding> findings;   // of a draft, or why nothing can be read
  FileTexts texts;
  bool refused = false;

  std::size_t errors() const { return counted(findings).errors; }
};

Versions refused(std::vector<Finding> findings, FileTexts texts) {
  Versions versions;
  versions.findings = std::move(findings);
  versions.texts = std::move(texts);
  versions.refused = true;
  return versions;
}

/// One file, whatever lies beside it.
Versions version_in(const std::string& path) {
  FileBytes bytes = bytes_of_file(path, kMostBytes);
  if (auto* finding = std::get_if<Finding>(&bytes)) return refused({*finding}, {});
  const std::string& text = std::get<std::string>(bytes);
  Read<Protocol> read = resolved_from_xml(text, path);
  std::vector<Finding> findings = read.findings;
  if (read.value) {
    const std::vector<Finding> more = check(*read.value).findings;
    findings.insert(findings.end(), more.begin(), more.end());
  }
  if (!read.value) return refused(std::move(findings), {{path, text}});
  Versions versions;
  versions.protocols.push_back(std::move(*read.value));
  versions.bytes.push_back(text);
  if (has_error(findings)) versions.findings = std::move(findings), versions.texts = {{path, text}};
  return versions;
}

/// A set with errors, as far as each of its protocols can be read: what a number would do is asked before it is right.
/// Nothing when one of them cannot, or is there twice.
std::optional<Versions> draft_of(const ProtocolSet& set) {
  Versions versions;
  for (const Finding& finding : set.findings) {
    if (finding.severity == Severity::error && !set.texts.contains(finding.where.file)) return std::nullopt;
  }
  std::set<std::string> names;
  for (const auto& [name, text] : set.texts) {
    if (is_laws_file(name) || is_examples_file(name)) continue;
    Read<Protocol> read = resolved_from_xml(text, name);
    if (!read.value || !names.insert(read.value->name).second) return std::nullopt;
    versions.protocols.push_back(std::move(*read.value));
    versions.bytes.push_back(text);
  }
  if (versions.protocols.empty()) return std::nullopt;
  versions.findings = set.findings;
  versions.texts = set.texts;
  return versions;
}

bool is_folder(const std::string& path) {
  std::error_code error;
  return std::filesystem::is_directory(path, error);
}
bool is_file(const std::string& path) {
  std::error_code error;
  return std::filesystem::exists(path, error) && !is_folder(path);
}

/// A set that travels inside the program. It was checked before it came there: a test of the program does that.
Versions set_inside(const std::string& name) {
  Versions versions;
  for (const EmbeddedFile& file : embedded_files()) {
    const std::string path(file.path), bytes(file.bytes);
    if (!path.starts_with(name + "/") || !path.ends_with(".xml") || is_examples_file(path)) continue;
    if (is_laws_file(path)) {
      versions.laws = bytes;
    } else if (Read<Protocol> read = resolved_from_xml(bytes, path); read.value) {
      versions.protocols.push_back(std::move(*read.value));
      versions.bytes.push_back(bytes);
    }
  }
  return versions;
}

Versions set_at(const std::string& path) {
  const ProtocolSet set = set_in_folder(path, "");
  Versions versions;
  if (has_error(set.findings)) {
    std::optional<Versions> draft = draft_of(set);
    if (!draft) return refused(set.findings, set.texts);
    versions = std::move(*draft);
  }
  for (std::size_t i = 0; i < set.alone.size() && versions.findings.empty(); ++i) {
    versions.protocols.push_back(set.alone[i].checked.protocol());
    versions.bytes.push_back(set.alone[i].bytes);
  }
  for (const auto& [name, text] : set.texts) {
    if (is_laws_file(name)) versions.laws = text;
  }
  return versions;
}

Versions versions_at(const std::string& path) {
  Versions versions = is_file(path) ? version_in(path) : is_folder(path) ? set_at(path) : set_inside(path);
  versions.path = path;
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

// One file beside a whole set would be told as a set in which the other protocols are gone.
std::optional<WrongUse> file_beside_set(const CompareOptions& options) {
  if (is_file(options.was) == is_file(options.now)) return std::nullopt;
  const bool file_first = is_file(options.was);
  const std::string &file = file_first ? options.was : options.now, &set = file_first ? options.now : options.was;
  const std::filesystem::path path(file);
  const std::string same = (std::filesystem::path(set) / path.filename()).string();
  const std::string other = path.has_parent_path() ? path.parent_path().string() : ".";
  const bool has_it = is_folder(set) && is_file(same);
  const std::string with = has_it ? same : set, beside = has_it ? file : other;
  return WrongUse{"`" + file + "` is one protocol, and `" + set + "` is a whole set",
                  "compare file with file, or set with set: `rushlight compare " +
                      shell_word(file_first ? beside : with) + " " + shell_word(file_first ? with : beside) + "`"};
}

std::optional<WrongUse> what_is_not_there(const std::string& path) {
  const std::vector<std::string> sets = embedded_sets();
  if (is_folder(path) || is_file(path) || std::find(sets.begin(), sets.end(), path) != sets.end()) return std::nullopt;
  return WrongUse{"there is no folder, file or set of this name",
                  "name a folder or a file that is there, or a set of the program: " + quoted_choice(sets)};
}

// Whoever reads on knows that nobody is walked by this.
void tell_draft(std::ostream& out, const Versions& versions) {
  const std::size_t errors = versions.errors();
  if (errors == 0) return;
  out << "DRAFT: " << versions.path << " has " << errors << (errors == 1 ? " error" : " errors")
      << ", and nobody can walk it. What it would change is told all the same.\nSee the "
      << (errors == 1 ? "error" : "errors") << ": rushlight check " << shell_word(versions.path) << "\n\n";
}

// Where only one version has a step of this name, the one that stands for it is drawn beside it.
std::optional<std::pair<StepId, StepId>> both_named(const SideBySide& sides, const Protocol& was, const Protocol& now,
                                                    const std::string& step) {
  const auto older = was.step_named(step), in_now = now.step_named(step);
  std::optional<StepId> newer;
  if (in_now) newer = StepId{static_cast<std::uint16_t>(in_now->index + sides.now_steps)};
  if (older && newer) return std::pair{*older, *newer};
  if (!older && !newer) return std::nullopt;
  const auto beside = renamed_step(sides, older ? *older : *newer);
  if (!beside) return std::nullopt;
  return older ? std::pair{*older, *beside} : std::pair{*beside, *newer};
}

// The first protocol of both that has the step.
int draw_map(const CompareOptions& options, const Versions& was, const Versions& now, std::ostream& out,
             std::ostream& err) {
  if (!is_picture_file(options.out))
    return refused(err, options.out, WrongUse{"a picture is *.svg or *.png", "write `--out FILE.svg`"});
  const std::size_t colon = std::min(options.map.find(':'), options.map.size());
  const std::string step = options.map.substr(0, colon);
  std::vector<std::string> known;
  bool in_one = false;
  for (const Protocol& protocol : was.protocols) {
    const bool single = was.protocols.size() == 1 && now.protocols.size() == 1;
    const Protocol* other = single ? &now.protocols.front() : named(now, protocol.name);
    if (other == nullptr) continue;
    for (const Step& each : protocol.steps) {
      if (other->step_named(each.name)) known.push_back(each.name);
    }
    const SideBySide sides = side_by_side(protocol, *other);
    const auto both = both_named(sides, protocol, *other, step);
    in_one = in_one || protocol.step_named(step) || other->step_named(step);
    if (!both) continue;
    const StepId newer{static_cast<std::uint16_t>(both->second.index - sides.now_steps)};
    const std::string map = sides.both[both->first].name + options.map.substr(colon);
    const Or<ComparisonMap> drawn = map_of(sides, newer, map, options.given);
    if (const auto* kind = std::get_if<Kind>(&drawn)) return refused(err, options.was, *kind);
    const auto& [picture, differs] = std::get<ComparisonMap>(drawn);
    if (auto kind = written(options.out, picture)) return refused(err, options.out, std::move(*kind));
    out << options.out << ": " << picture.paper.name << '\n';
    return differs ? 1 : 0;
  }
  if (in_one)
    return refused(err, options.was,
                   WrongUse{"only one of the versions has a step `" + step +
                                "`, and nobody can tell which step of the "
                                "other stands for it",
                            "draw it alone: `rushlight check FILE --map " + options.map + " --out FILE.svg`"});
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

Detail detail_of(const CompareOptions& options) {
  return options.json ? Detail::every_case : options.all ? Detail::every_place : Detail::worst_first;
}

// The protocols have nothing to do with each other, and whoever waits for them has more than one processor.
std::vector<Compared> all_compared(const Versions& was, const Versions& now, Detail detail) {
  // Two files named one by one are compared whatever they are called.
  const bool single = was.protocols.size() == 1 && now.protocols.size() == 1;
  std::vector<Compared> all;
  std::vector<std::pair<std::size_t, std::future<Differences>>> asked;
  for (const Protocol& protocol : was.protocols) {
    const Protocol* other = single ? &now.protocols.front() : named(now, protocol.name);
    Compared compared{protocol.name, {}, other == nullptr};
    compared.same_file = other != nullptr && detail == Detail::worst_first && is_same_file(was, now, protocol, *other);
    if (other != nullptr && !compared.same_file) {
      const auto compare_both = [&protocol, other, detail] { return compare(protocol, *other, detail); };
      asked.emplace_back(all.size(), std::async(single ? std::launch::deferred : std::launch::async, compare_both));
    }
    all.push_back(std::move(compared));
  }
  for (auto& [place, differences] : asked) all[place].both = differences.get();
  for (const Protocol& protocol : now.protocols) {
    if (!single && named(was, protocol.name) == nullptr) all.push_back(Compared{protocol.name, {}, false});
  }
  return all;
}

}  // namespace

int compare_command(const CompareOptions& options, std::ostream& out, std::ostream& err) {
  for (const std::string& path : {options.was, options.now}) {
    if (auto wrong = what_is_not_there(path)) return refused(err, path, std::move(*wrong));
  }
  if (auto wrong = file_beside_set(options)) return refused(err, options.now, std::move(*wrong));
  const bool is_itself = options.now == options.was;
  auto other_side = std::async(is_itself ? std::launch::deferred : std::launch::async, versions_at, options.now);
  const Versions was = versions_at(options.was);
  const Versions now = is_itself ? was : other_side.get();
  for (const Versions* each : {&was, &now}) {
    if (each->refused) print_findings(err, each->findings, each->texts);
    if (is_itself) break;
  }
  if (was.refused || now.refused) return 2;
  if (!options.map.empty()) {
    // A picture goes on without the line that says what it is.
    for (const Versions* each : {&was, &now}) {
      if (each->errors() > 0) return print_findings(err, each->findings, each->texts), 2;
    }
    return draw_map(options, was, now, out, err);
  }
  const std::vector<Compared> all = all_compared(was, now, detail_of(options));
  const std::vector<std::string> laws = told_laws(was.laws, now.laws);
  bool changed = !laws.empty(), gave_up = false;
  for (const Compared& compared : all) {
    changed = changed || (!compared.same_file && (!compared.both || !compared.both->changes.empty()));
    gave_up = gave_up || (compared.both && compared.both->gave_up);
  }
  if (options.json) {
    out << json_from_compared(all, !laws.empty(), {was.errors(), now.errors()}) << '\n';
  } else {
    tell_draft(out, was);
    if (options.now != options.was) tell_draft(out, now);
    for (const Compared& compared : all) print(out, compared);
    for (const std::string& line : laws) out << line << '\n';
    out << "What changes is shown, not whether it is right: that stays the clinic's decision.\n";
  }
  return changed || gave_up ? 1 : 0;
}

}  // namespace rushlight
