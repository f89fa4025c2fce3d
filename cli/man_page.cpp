#include "cli/man_page.hpp"

#include <sstream>

namespace rushlight {
namespace {

/// Fit for roff: no line begins a macro, no backslash means something, a hyphen is the one of the keyboard.
std::string roff(const std::string& text) {
  std::string safe;
  bool line_begins = true;
  for (const char c : text) {
    if (line_begins && (c == '.' || c == '\'')) safe += "\\&";
    line_begins = c == '\n';
    if (c == '\\') {
      safe += "\\e";
    } else if (c == '-') {
      safe += "\\-";
    } else {
      safe += c;
    }
  }
  return safe;
}

std::string bold(const std::string& text) { return "\\fB" + roff(text) + "\\fR"; }
std::string italic(const std::string& text) { return "\\fI" + roff(text) + "\\fR"; }

std::string in_capital_letters(std::string text) {
  for (char& letter : text) {
    if (letter >= 'a' && letter <= 'z') letter = static_cast<char>(letter - 'a' + 'A');
    if (letter == ' ') letter = '-';
  }
  return text;
}

std::string hyphenated(std::string text) {
  for (char& letter : text) {
    if (letter == ' ') letter = '-';
  }
  return text;
}

std::string value_of(const OptionWords& option) {
  std::string value;
  for (const std::string& choice : option.choices) value += (value.empty() ? "" : "|") + choice;
  return value.empty() ? option.value : value;
}

std::string synopsis(const CommandWords& command) {
  std::string text = bold(command.full);
  if (!command.options.empty()) text += " [" + italic("OPTION") + "]...";
  for (const OptionWords& each : command.positionals) {
    const std::string word = italic(each.names.front()) + (each.many ? "..." : "");
    text += each.required ? " " + word : " [" + word + "]";
  }
  if (!command.commands.empty()) text += " [" + italic("COMMAND") + "]";
  return text + "\n";
}

/// The footer holds "Exit status:" and its lines.
std::string exit_statuses(const std::string& footer) {
  std::istringstream lines(footer);
  std::string text;
  for (std::string line; std::getline(lines, line);) {
    const std::size_t digit = line.find_first_of("0123456789");
    if (digit == std::string::npos || line.rfind("  ", 0) != 0) continue;
    text += ".TP\n" + bold(line.substr(digit, 1)) + "\n" + roff(line.substr(digit + 3)) + "\n";
  }
  return text.empty() ? "" : ".SH EXIT STATUS\n" + text;
}

constexpr const char* kFiles = R"(.SH FILES
.TP
.I $XDG_DATA_HOME/rushlight
The child file and the journal (~/.local/share/rushlight when the variable is not set).
.TP
.I $XDG_CONFIG_HOME/rushlight
The keys that this machine trusts and, at a clinic, its secret key (~/.config/rushlight).
.PP
.B rushlight where
prints all of them.
.SH ENVIRONMENT
.TP
.B XDG_DATA_HOME, XDG_CONFIG_HOME, HOME
Where those folders are.
.TP
.B LC_ALL, LC_MESSAGES, LANG
The language, before a child file says one.
.TP
.B RUSHLIGHT_CLOCK
A practice clock; every screen says so.
)";

constexpr const char* kCaution =
    ".SH CAUTION\n"
    "Rushlight follows the clinic's protocol and does not replace it, the clinic or a licensed professional.\n"
    "Local emergency rules come first. If in doubt, call.\n";

/// Lines of at most 78 letters, broken at blanks; what begins a macro stays whole. roff fills them again.
std::string in_short_lines(const std::string& page) {
  constexpr std::size_t kWidest = 78;
  std::istringstream lines(page);
  std::string text;
  for (std::string line; std::getline(lines, line);) {
    while (line.size() > kWidest && line.front() != '.') {
      const std::size_t blank = line.rfind(' ', kWidest);
      const bool breaks = blank != std::string::npos && blank > 0 && line[blank + 1] != '.' && line[blank + 1] != '\'';
      if (!breaks) break;
      text += line.substr(0, blank) + "\n";
      line = line.substr(blank + 1);
    }
    text += line + "\n";
  }
  return text;
}

}  // namespace

std::string man_page(const CommandWords& command, const std::string& version, const std::string& date) {
  const std::string first_line = command.description.substr(0, command.description.find('\n'));
  std::string page = ".TH " + in_capital_letters(command.full) + " 1 " + date + " \"" + version + "\" \"Rushlight\"\n" +
                     ".SH NAME\n" + roff(hyphenated(command.full)) + " \\- " + roff(first_line) + "\n.SH SYNOPSIS\n" +
                     synopsis(command) + ".SH DESCRIPTION\n" + roff(command.description) + "\n";
  if (!command.commands.empty()) page += ".SH COMMANDS\n";
  for (const CommandWords& inner : command.commands)
    page += ".TP\n" + bold(inner.full) + "\n" + roff(inner.description) + "\n";
  page += ".SH OPTIONS\n";
  for (const OptionWords& each : command.positionals)
    page += ".TP\n" + italic(each.names.front()) + "\n" + roff(each.description) + "\n";
  for (const OptionWords& option : command.options) {
    page += ".TP\n";
    for (std::size_t at = 0; at < option.names.size(); ++at) page += (at == 0 ? "" : ", ") + bold(option.names[at]);
    if (!option.value.empty()) page += " " + italic(value_of(option));
    page += "\n" + roff(option.description) + "\n";
  }
  return in_short_lines(page + exit_statuses(command.footer) + kFiles + kCaution);
}

}  // namespace rushlight
