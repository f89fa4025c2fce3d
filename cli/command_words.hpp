#pragma once

#include <CLI/CLI.hpp>
#include <functional>
#include <string>
#include <vector>

namespace rushlight {

/// A command and what it does when it was typed.
struct TypedCommand {
  CLI::App* app;
  std::function<int()> run;
};
using Commands = std::vector<TypedCommand>;

/// Puts the three exit statuses below the command's --help. Every command has the same three.
void say_exit_statuses(
    CLI::App& command, const std::string& done, const std::string& refused,
    const std::string& unreadable = "something cannot be read or written, or the command was typed wrongly");

/// An option or a positional word, as --help shows it. What --help, the completion and the manual say is made from the
/// same description.
struct OptionWords {
  std::vector<std::string> names;    // "--lang"; of a positional its one name, "SET"
  std::string value;                 // "FILE", "DIR", "NAME"; empty when it takes none
  std::vector<std::string> choices;  // all it may be, when that is a closed list
  std::string description;
  bool required = false, many = false;
};

struct CommandWords {
  std::string name;  // "new"
  std::string full;  // "rushlight key new"
  std::string description, footer;
  std::vector<OptionWords> options, positionals;
  std::vector<CommandWords> commands;  // without hidden ones
};

CommandWords words_of_command(const CLI::App& app, const std::string& above = "");

}  // namespace rushlight
