#include <functional>

#include "cli/completion.hpp"

namespace rushlight {
namespace {

using Sets = std::vector<std::string>;

std::string joined(const Sets& words) {
  std::string text;
  for (const std::string& word : words) text += (text.empty() ? "" : " ") + word;
  return text;
}

/// The bash that fills COMPREPLY for one value.
std::string bash_value(const OptionWords& option, const Sets& sets) {
  if (!option.choices.empty()) return "_rushlight_words \"" + joined(option.choices) + "\"";
  if (option.value == "SET") return "_rushlight_words \"" + joined(sets) + "\"; _rushlight_folders";
  if (option.value == "SET-OR-FILE") return "_rushlight_words \"" + joined(sets) + "\"; _rushlight_files";
  if (option.value == "NAME-OF-SET") return "_rushlight_words \"" + joined(sets) + "\"";
  if (option.value == "DIR") return "_rushlight_folders";
  if (option.value == "FILE" || option.value == "PATH") return "_rushlight_files";
  return ":";
}

void for_each_command(const CommandWords& command, const std::string& path,
                      const std::function<void(const CommandWords&, const std::string&)>& does) {
  does(command, path);
  for (const CommandWords& inner : command.commands)
    for_each_command(inner, path.empty() ? inner.name : path + " " + inner.name, does);
}

constexpr const char* kHead =
    R"(# bash completion for rushlight. To use it: rushlight completion bash > ~/.local/share/bash-completion/completions/rushlight

_rushlight_words() { COMPREPLY+=($(compgen -W "$1" -- "$cur")); }
_rushlight_files() { compopt -o filenames 2>/dev/null; local IFS=$'\n'; COMPREPLY+=($(compgen -f -- "$cur")); }
_rushlight_folders() { compopt -o filenames 2>/dev/null; local IFS=$'\n'; COMPREPLY+=($(compgen -d -- "$cur")); }

_rushlight() {
  local cur=${COMP_WORDS[COMP_CWORD]} command="" previous="" word i
  COMPREPLY=()
  for ((i = 1; i < COMP_CWORD; ++i)); do
    word=${COMP_WORDS[i]}
    if _rushlight_takes_value "$command" "$previous"; then
      previous=
      continue
    fi
    previous=$word
    case "$command/$word" in
)";

}  // namespace

std::string bash_completion(const CommandWords& program, const Sets& sets) {
  std::string steps, values, takes, words;
  for_each_command(program, "", [&](const CommandWords& command, const std::string& path) {
    for (const CommandWords& inner : command.commands) {
      const std::string to = path.empty() ? inner.name : path + " " + inner.name;
      steps += "      \"" + path + "/" + inner.name + "\") command=\"" + to + "\" ;;\n";
    }
    std::string names;
    for (const OptionWords& option : command.options) {
      for (const std::string& name : option.names) {
        names += (names.empty() ? "" : " ") + name;
        if (option.value.empty()) continue;
        values += "    \"" + path + ":" + name + "\") " + bash_value(option, sets) + "; return ;;\n";
        takes += (takes.empty() ? "" : " | ") + ("\"" + path + ":" + name + "\"");
      }
    }
    for (const CommandWords& inner : command.commands) names += " " + inner.name;
    std::string positional;
    for (const OptionWords& each : command.positionals) positional += "; " + bash_value(each, sets);
    words += "    \"" + path + "\") _rushlight_words \"" + names + "\"" + positional + " ;;\n";
  });
  return std::string(kHead) + steps + "    esac\n  done\n  case \"$command:$previous\" in\n" + values +
         "  esac\n  case \"$command\" in\n" + words +
         "  esac\n}\n\n_rushlight_takes_value() {\n  case \"$1:$2\" in\n    " + takes +
         ") return 0 ;;\n  esac\n  return 1\n}\n\ncomplete -F _rushlight rushlight\n";
}

}  // namespace rushlight
