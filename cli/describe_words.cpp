#include <iostream>
#include <memory>

#include "cli/completion.hpp"
#include "cli/describe.hpp"
#include "cli/embedded.hpp"
#include "cli/man_page.hpp"
#include "cli/plain_text.hpp"

namespace rushlight {
namespace {

// The day of the manual's words: it changes when they do, and a manual made twice is the same twice.
constexpr const char* kManualOf = "2026-03-01";

std::vector<std::string> sets_in_program() {
  std::vector<std::string> sets;
  for (const EmbeddedFile& file : embedded_files()) {
    const std::size_t slash = file.path.find('/');
    if (slash == std::string_view::npos) continue;
    const std::string set(file.path.substr(0, slash));
    if (sets.empty() || sets.back() != set) sets.push_back(set);
  }
  return sets;
}

const CommandWords* command_at(const CommandWords& from, const std::vector<std::string>& path) {
  const CommandWords* here = &from;
  for (const std::string& name : path) {
    const CommandWords* next = nullptr;
    for (const CommandWords& inner : here->commands) {
      if (inner.name == name) next = &inner;
    }
    if (next == nullptr) return nullptr;
    here = next;
  }
  return here;
}

}  // namespace

void describe_words(CLI::App& app, Commands& commands) {
  const auto shell = std::make_shared<std::string>();
  CLI::App* completion = app.add_subcommand("completion", "Print a completion script for a shell");
  completion->add_option("shell", *shell, "bash or zsh")->required()->check(CLI::IsMember({"bash", "zsh"}));
  say_exit_statuses(*completion, "printed", "cannot happen");
  commands.push_back({completion, [shell, &app] {
                        const CommandWords words = words_of_command(app);
                        std::cout << (*shell == "bash" ? bash_completion : zsh_completion)(words, sets_in_program());
                        return 0;
                      }});

  const auto path = std::make_shared<std::vector<std::string>>();
  CLI::App* man = app.add_subcommand("man", "Print the manual page of the program or of a command");
  man->add_option("command", *path, "The command, like: key new")->type_name("COMMAND");
  say_exit_statuses(*man, "printed", "there is no such command");
  commands.push_back({man, [path, &app] {
                        const CommandWords words = words_of_command(app);
                        const CommandWords* command = command_at(words, *path);
                        if (command == nullptr) {
                          std::cerr << "rushlight man: there is no such command. rushlight --help lists them.\n";
                          return 1;
                        }
                        std::cout << man_page(*command, app.version(), kManualOf);
                        return 0;
                      }});
}

}  // namespace rushlight
