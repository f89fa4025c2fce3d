#include "cli/command_words.hpp"

namespace rushlight {
namespace {

/// "TEXT:{en,es}" becomes "TEXT" and its choices.
void split_choices(const std::string& type, OptionWords& words) {
  const std::size_t open = type.find(":{");
  words.value = type.substr(0, open);
  if (open == std::string::npos || type.back() != '}') return;
  std::string rest = type.substr(open + 2, type.size() - open - 3);
  while (!rest.empty()) {
    const std::size_t comma = rest.find(',');
    words.choices.push_back(rest.substr(0, comma));
    rest = comma == std::string::npos ? "" : rest.substr(comma + 1);
  }
}

OptionWords words_of_option(const CLI::Option& option) {
  OptionWords words;
  for (const std::string& name : option.get_snames()) words.names.push_back("-" + name);
  for (const std::string& name : option.get_lnames()) words.names.push_back("--" + name);
  if (!option.nonpositional()) words.names.push_back(option.get_name(true));
  if (option.get_items_expected_max() > 0) split_choices(option.get_type_name(), words);
  words.description = option.get_description();
  words.required = option.get_required();
  words.many = option.get_items_expected_max() > 1;
  return words;
}

}  // namespace

void say_exit_statuses(CLI::App& command, const std::string& done, const std::string& refused,
                       const std::string& unreadable) {
  command.footer("Exit status:\n  0  " + done + "\n  1  " + refused + "\n  2  " + unreadable);
}

CommandWords words_of_command(const CLI::App& app, const std::string& above) {
  CommandWords words;
  words.name = app.get_name();
  words.full = above.empty() ? words.name : above + " " + words.name;
  words.description = app.get_description();
  words.footer = app.get_footer();
  for (const CLI::Option* option : app.get_options()) {
    if (option->get_group().empty()) continue;
    (option->nonpositional() ? words.options : words.positionals).push_back(words_of_option(*option));
  }
  const std::function<bool(const CLI::App*)> is_shown = [](const CLI::App* each) { return !each->get_group().empty(); };
  for (const CLI::App* command : app.get_subcommands(is_shown))
    words.commands.push_back(words_of_command(*command, words.full));
  return words;
}

}  // namespace rushlight
