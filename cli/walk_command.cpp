#include "cli/walk_command.hpp"

#include <filesystem>
#include <iostream>

#include "cli/child_file.hpp"
#include "cli/clock.hpp"
#include "cli/data_folder.hpp"
#include "cli/first_aid_card.hpp"
#include "cli/language.hpp"
#include "cli/plain_text.hpp"
#include "cli/print_findings.hpp"
#include "cli/say.hpp"
#include "cli/set_in_use.hpp"
#include "cli/shell_word.hpp"
#include "cli/walk_json.hpp"
#include "cli/walk_terminal.hpp"
#include "wire/json_from_finding.hpp"

namespace rushlight {
namespace {

constexpr Both kNoChild{"There is no child file yet.", "Todavía no hay ficha del niño."};
constexpr Both kMakeChild{"To make one: rushlight child new", "Para crearla: rushlight child new"};
constexpr Both kPractise{"To practise with an invented child: rushlight walk --demo-child",
                         "Para practicar con un niño inventado: rushlight walk --demo-child"};

std::string how_to_go_on(const WalkOptions& options) {
  std::string command = "rushlight walk";
  const auto add = [&](const char* name, const std::string& value) {
    if (!value.empty()) command += std::string(" ") + name + " " + shell_word(value);
  };
  if (options.demo_child) command += " --demo-child";
  add("--child", options.child);
  add("--protocols", options.protocols);
  add("--set", options.set);
  add("--protocol", options.protocol);
  add("--journal", options.journal);
  if (options.plain) command += " --plain";
  return command;
}

// The command as it was typed, so that the same can be asked for in the other language.
int refuse(const WalkOptions& options, const std::vector<Finding>& findings, Language language) {
  if (options.json) std::cout << json_from_refusal(findings) << '\n';
  std::cerr << cannot_begin(what_is_wrong(findings, language), language, how_to_go_on(options));
  return exit_status_of(findings);
}

constexpr Both kSetGone{"The clinic's protocols are not where the child file says: {1}",
                        "Los protocolos de la clínica no están donde dice la ficha: {1}"};
constexpr Both kByTheExample{"To walk by the example set, which no clinic approved: {1}",
                             "Para seguir la guía de ejemplo, que ninguna clínica aprobó: {1}"};

/// The folder that the child file names is not there: a family moved it, or a stick was taken out.
bool is_gone(const SetInUse& use) {
  std::error_code error;
  return use.why == SetInUse::Why::child_protocols && !std::filesystem::is_directory(use.folder, error);
}

int set_is_gone(const WalkOptions& options, const SetInUse& use, const ProtocolSet& set, Language language) {
  if (options.json) std::cout << json_from_refusal(set.findings) << '\n';
  WalkOptions by_example = options;
  by_example.set = "reference";
  std::cerr << cannot_begin(
      {say(kSetGone, language, cleaned(use.folder)), say(kByTheExample, language, cleaned(how_to_go_on(by_example)))},
      language, how_to_go_on(options));
  return exit_status_of(set.findings);
}

/// The day that the walk's clock shows; a clock that cannot be had is refused later.
Day day_by(const ClockChoice& choice) { return choice.clock ? local_day_of(choice.clock->now()) : kDemoDay; }

int no_child(Language language) {
  std::cerr << cannot_begin({say(kNoChild, language), say(kMakeChild, language), say(kPractise, language)}, language);
  return 2;
}

}  // namespace

int walk_command(const WalkOptions& options) {
  if (!options.from.empty() && !clock_time_from_text(options.from)) {
    const Finding wrong{
        Severity::error, Where{"--from", 0, 0, 0}, BadNumber{options.from, "a clock time is written as HH:MM"}, {}};
    return refuse(options, {wrong}, language_of_machine());
  }
  const std::optional<Language> chosen = language_named(options.language);

  std::string child_file = options.child;
  const bool demo = options.demo_child || (options.json && child_file.empty());
  if (!demo && child_file.empty()) child_file = usual_child_file();
  std::error_code error;
  if (!demo && options.child.empty() && !std::filesystem::exists(child_file, error))
    return no_child(chosen.value_or(language_of_machine()));
  ChildFile read = demo ? demo_child(options.json ? kDemoDay : day_by(clock_from_environment())) : child_in(child_file);
  if (!read.child) {
    const Language usual = language_in_child_file(read.bytes).value_or(language_of_machine());
    return refuse(options, read.findings, chosen.value_or(usual));
  }

  const Language language = chosen.value_or(read.child->language);
  const SetInUse use = set_in_use(options.protocols, options.set, &*read.child, child_file);
  ProtocolSet set = read_set(use);
  if (is_gone(use)) return set_is_gone(options, use, set, language);
  const std::string id = options.protocol.empty() ? "low" : options.protocol;
  const LoadedProtocol* protocol = set.find(id);
  if (has_error(set.findings)) return refuse(options, set.findings, language);
  if (protocol == nullptr) {
    std::vector<std::string> known;
    for (const LoadedProtocol& loaded : set.protocols) known.push_back(loaded.checked.protocol().name);
    const Finding unknown{Severity::error, Where{"--protocol", 0, 0, 0}, UnknownId{id, "protocol", known}, {}};
    return refuse(options, {unknown}, language);
  }
  if (options.json) {
    return walk_json(std::cin, std::cout, std::cerr,
                     WalkJson{*protocol, *read.child, read.bytes, chosen, options.journal, options.take_over});
  }
  const std::string journal = options.no_journal        ? ""
                              : options.journal.empty() ? usual_journal_file()
                                                        : options.journal;
  std::vector<LoadedProtocol> others;
  for (const LoadedProtocol& loaded : set.protocols) {
    if (options.protocol.empty() && &loaded != protocol) others.push_back(loaded);
  }
  return walk_in_terminal(WalkInTerminal{*protocol, *read.child, read.bytes, language, chosen.has_value(), journal,
                                         options.plain, how_to_go_on(options), options.from, std::move(others)});
}

}  // namespace rushlight
