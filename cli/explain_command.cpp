#include "cli/explain_command.hpp"

#include <algorithm>
#include <filesystem>
#include <ostream>

#include "cli/plain_text.hpp"
#include "cli/print_findings.hpp"
#include "cli/protocol_set.hpp"
#include "episode/phrases.hpp"
#include "episode/view.hpp"
#include "finding/quoted.hpp"
#include "read/resolved_from_xml.hpp"
#include "verify/explain.hpp"
#include "verify/in_words.hpp"

namespace rushlight {
namespace {

constexpr int kWidth = 110;

class Page {
 public:
  explicit Page(std::ostream& out) : out_(out) {}
  void line(const std::string& lead, const std::string& text) {
    for (const std::string& each : wrapped(lead, cleaned(text), kWidth)) out_ << each << '\n';
  }

 private:
  std::ostream& out_;
};

std::string place_of(const Where& where) { return where.file.text() + ":" + std::to_string(where.line); }

std::string title_of(const Protocol& protocol, const Sought& sought) {
  const Step& step = protocol[sought.step];
  if (sought.kind == Sought::Kind::step) return "step " + rushlight::quoted(step.name) + ", " + place_of(step.where);
  if (sought.kind == Sought::Kind::rule) {
    const Rule& rule = step.rules[sought.index];
    return "rule " + rushlight::quoted(rule.name) + ", " + place_of(rule.where) + ": from step " +
           rushlight::quoted(step.name) + " to " + rushlight::quoted(protocol[rule.enters.value_or(rule.go)].name);
  }
  const Watch& watch = protocol.watch[sought.index];
  return "watch " + rushlight::quoted(watch.name) + ", " + place_of(watch.where) +
         ": from every step that does not handle it to " + rushlight::quoted(protocol[watch.go].name);
}

void print_ways(Page& page, const Protocol& protocol, const Explanation& explanation) {
  if (explanation.sought.kind != Sought::Kind::step) {
    page.line("  when  ", explanation.ways.front().words);
    const std::uint16_t before = explanation.sought.index;
    if (before > 0)
      page.line("        ", explanation.sought.kind == Sought::Kind::watch ? "and no watch before it fires"
                            : before == 1                                  ? "and rule 1 does not match"
                                          : "and none of rules 1 to " + std::to_string(before) + " matches");
    return;
  }
  if (explanation.sought.step == protocol.start) page.line("  from  ", "the beginning");
  for (const WayIn& way : explanation.ways) {
    const bool watch = way.from == explanation.sought.step && way.words.starts_with("watch ");
    page.line("  from  ", (watch ? "every step" : rushlight::quoted(protocol[way.from].name)) + ", " + way.words +
                              " (line " + std::to_string(way.where.line) + ")");
  }
}

void print_who(Page& page, const Explanation& explanation) {
  if (explanation.only_for.empty()) {
    page.line("  who   ", "any child");
    return;
  }
  std::string text;
  for (const OnlyFor& only : explanation.only_for) {
    text += (text.empty() ? "" : "; ") + only.trait + ": ";
    for (std::size_t i = 0; i < only.values.size(); ++i) text += (i == 0 ? "" : ", ") + only.values[i];
  }
  page.line("  who   ", text);
}

std::string clock_of(const Moment& moment) { return text_from_clock_time(clock_time_of(moment)); }

// Told by the engine itself, on the protocol as it is.
void print_example(Page& page, const Protocol& protocol, const Example& example) {
  const Child& child = example.setting.child;
  Episode episode = beginning(protocol, example.setting);
  Moment now = example.setting.began;
  page.line("  ", "An example, the shortest that was found:");
  for (const Event& event : example.events) {
    const Step& step = protocol[settled_at(protocol, child, episode, event.at).step];
    page.line("    " + clock_of(event.at) + "  ", rushlight::quoted(step.name) + ": " + in_words(protocol, event));
    episode = folded(protocol, child, std::move(episode), event);
    now = event.at;
  }
  const View view = view_of(protocol, child, episode, now);
  page.line("    " + clock_of(now) + "  ",
            rushlight::quoted(view.step) + ": " + shown_as(view.urgency, view.language) + ". " + view.headline);
}

/// What the checks say against anybody coming to the very place.
std::vector<Finding> why_not_at(const Where& where, const std::vector<Finding>& findings) {
  std::vector<Finding> here;
  for (const Finding& finding : findings) {
    const bool says_nobody = finding.kind.is<RuleNeverMatches>() || finding.kind.is<StepUnreachable>();
    if (says_nobody && finding.where == where) here.push_back(finding);
  }
  return here;
}

Where where_of(const Protocol& protocol, const Sought& sought) {
  if (sought.kind == Sought::Kind::step) return protocol[sought.step].where;
  if (sought.kind == Sought::Kind::watch) return protocol.watch[sought.index].where;
  return protocol[sought.step].rules[sought.index].where;
}

struct Explained {
  const Protocol* protocol;
  const std::vector<Finding>* findings;  // of the whole set
};

/// Gives true when somebody comes there.
bool print_explanation(std::ostream& out, const Explained& in, const Sought& sought, const FileTexts& texts) {
  Page page(out);
  page.line("", title_of(*in.protocol, sought));
  const std::vector<Finding> why_not = why_not_at(where_of(*in.protocol, sought), *in.findings);
  if (!why_not.empty()) {
    page.line("  who   ", "nobody:");
    print_findings(out, why_not, texts);
    return false;
  }
  const Explanation explanation = explained(*in.protocol, sought);
  print_ways(page, *in.protocol, explanation);
  if (explanation.example) {
    print_who(page, explanation);
    print_example(page, *in.protocol, *explanation.example);
    return true;
  }
  page.line("  who   ", explanation.gave_up ? "no example was found before the search was given up; there may be one"
                                            : "nobody: whatever is answered, nothing leads there");
  return false;
}

ProtocolSet set_for(const std::vector<std::string>& paths) {
  if (paths.empty()) return embedded_set("reference");
  std::error_code error;
  if (std::filesystem::is_directory(paths.front(), error)) return set_in_folder(paths.front(), "");
  const std::string folder = std::filesystem::path(paths.front()).parent_path().string();
  return set_in_folder(folder.empty() ? "." : folder, "");
}

bool is_file(const std::string& path, const std::string& file) {
  std::error_code error;
  return path == file || std::filesystem::equivalent(path, file, error);
}

}  // namespace

int explain_command(const std::string& id, const std::vector<std::string>& paths, std::ostream& out) {
  const ProtocolSet set = set_for(paths);
  std::error_code error;
  const bool one_file = !paths.empty() && !std::filesystem::is_directory(paths.front(), error);
  std::vector<Protocol> alone;  // where the set is refused, each file by itself
  alone.reserve(set.files.size());
  std::vector<const Protocol*> protocols;
  for (const FileOfSet& file : set.files) {
    if (one_file && !is_file(paths.front(), file.name)) continue;
    const auto linked = std::find_if(set.protocols.begin(), set.protocols.end(),
                                     [&](const LoadedProtocol& loaded) { return loaded.file == file.name; });
    if (linked != set.protocols.end()) {
      protocols.push_back(&linked->checked.protocol());
    } else if (Read<Protocol> read = resolved_from_xml(set.texts.at(file.name), file.name); read.value) {
      alone.push_back(std::move(*read.value));
      protocols.push_back(&alone.back());
    }
  }
  if (protocols.empty()) {
    print_findings(out, set.findings, set.texts);
    return exit_status_of(set.findings);
  }
  bool any = false, all = true;
  std::vector<std::string> known;
  for (const Protocol* protocol : protocols) {
    for (const Sought& sought : sought_named(*protocol, id)) {
      if (any) out << '\n';
      any = true;
      all = print_explanation(out, Explained{protocol, &set.findings}, sought, set.texts) && all;
    }
    const std::vector<std::string> names = names_to_explain(*protocol);
    known.insert(known.end(), names.begin(), names.end());
  }
  if (!any) {
    const Finding unknown{Severity::error, Where{"--explain", 0, 0, 0}, UnknownId{id, "step or rule", known}, {}};
    print_findings(out, {unknown}, set.texts);
    return 1;
  }
  return all ? 0 : 1;
}

}  // namespace rushlight
