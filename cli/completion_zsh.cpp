#include "cli/completion.hpp"

namespace rushlight {
namespace {

using Names = std::vector<std::string>;

/// Fit to stand in a specification of _arguments inside single quotes.
std::string zsh_safe(const std::string& text) {
  std::string safe;
  for (const char c : text) {
    if (c == '\'') {
      safe += "'\\''";
    } else if (c == '\n') {
      safe += ' ';
    } else {
      if (c == '[' || c == ']' || c == ':' || c == '\\') safe += '\\';
      safe += c;
    }
  }
  return safe;
}

std::string zsh_list(const Names& words) {
  std::string text = "(";
  for (const std::string& word : words) text += (text.size() > 1 ? " " : "") + word;
  return text + ")";
}

std::string zsh_value(const OptionWords& option, const Names& sets) {
  if (!option.choices.empty()) return zsh_list(option.choices);
  if (option.value == "SET")
    return "{_alternative \"sets\\:set\\:" + zsh_list(sets) + "\" \"folders\\:folder\\:_files -/\"}";
  if (option.value == "SET-OR-FILE")
    return "{_alternative \"sets\\:set\\:" + zsh_list(sets) + "\" \"files\\:file\\:_files\"}";
  if (option.value == "NAME-OF-SET") return zsh_list(sets);
  if (option.value == "DIR") return "_files -/";
  if (option.value == "FILE" || option.value == "PATH") return "_files";
  return "";
}

std::string function_of(const CommandWords& command) {
  std::string name = "_" + command.full;
  for (char& letter : name) {
    if (letter == ' ' || letter == '-') letter = '_';
  }
  return name;
}

void add_functions(const CommandWords& command, const Names& sets, std::string& script) {
  script += "\n" + function_of(command) + "() {\n  local state\n  _arguments -C";
  for (const OptionWords& option : command.options) {
    for (const std::string& name : option.names) {
      script += " \\\n    '" + name + "[" + zsh_safe(option.description) + "]";
      if (!option.value.empty()) script += ":" + zsh_safe(option.value) + ":" + zsh_value(option, sets);
      script += "'";
    }
  }
  for (const OptionWords& each : command.positionals) {
    script += std::string(" \\\n    '") + (each.many ? "*" : "") + ":" + zsh_safe(each.names.front()) + ":" +
              zsh_value(each, sets) + "'";
  }
  if (command.commands.empty()) {
    script += "\n}\n";
    return;
  }
  script += " \\\n    '1: :->command' '*:: :->rest'\n  case $state in\n    command)\n      _values command";
  for (const CommandWords& inner : command.commands)
    script += " \\\n        '" + inner.name + "[" + zsh_safe(inner.description) + "]'";
  script += "\n      ;;\n    rest)\n      case $words[1] in\n";
  for (const CommandWords& inner : command.commands)
    script += "        " + inner.name + ") " + function_of(inner) + " ;;\n";
  script += "      esac\n      ;;\n  esac\n}\n";
  for (const CommandWords& inner : command.commands) add_functions(inner, sets, script);
}

}  // namespace

std::string zsh_completion(const CommandWords& program, const Names& sets) {
  std::string script =
      "#compdef rushlight\n# zsh completion for rushlight. To use it, put it into a folder of $fpath:\n"
      "#   rushlight completion zsh > ~/.zfunc/_rushlight\n";
  add_functions(program, sets, script);
  return script +
         "\nif [ \"$funcstack[1]\" = \"_rushlight\" ]; then\n  _rushlight \"$@\"\nelse\n  compdef _rushlight "
         "rushlight\nfi\n";
}

}  // namespace rushlight
