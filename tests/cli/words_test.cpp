#include <algorithm>
#include <array>
#include <boost/test/unit_test.hpp>
#include <cstdio>
#include <regex>
#include <set>

#include "cli/program.hpp"

namespace rushlight::tests {

namespace {

using OptionNames = std::set<std::string>;

/// Every command that --help shows, as it is typed: {"key", "new"}; the program itself first.
const std::vector<std::vector<std::string>>& all_commands() {
  static const std::vector<std::vector<std::string>> kAll = [] {
    std::vector<std::vector<std::string>> all = {{}};
    for (std::size_t at = 0; at < all.size(); ++at) {
      std::vector<std::string> words = all[at];
      words.push_back("--help");
      bool in_list = false;
      for (const std::string& line : lines_of(run_program(words).out)) {
        if (line.rfind("Subcommands:", 0) == 0) in_list = true;
        std::smatch found;
        if (!in_list || !std::regex_search(line, found, std::regex("^  ([a-z-]+) "))) continue;
        std::vector<std::string> inner = all[at];
        inner.push_back(found[1]);
        all.push_back(inner);
      }
    }
    return all;
  }();
  return kAll;
}

std::string words_joined(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& word : words) text += (text.empty() ? "" : " ") + word;
  return text;
}

std::string help_of(std::vector<std::string> command) {
  command.push_back("--help");
  return run_program(command).out;
}

OptionNames options_in_help(const std::string& help) {
  OptionNames names;
  const std::regex option("^  (-[a-zA-Z],)?(--[a-z-]+)");
  for (const std::string& line : lines_of(help)) {
    std::smatch found;
    if (std::regex_search(line, found, option)) names.insert(found[2]);
  }
  return names;
}

std::string printed_by_shell(const std::string& command, int& status) {
  std::string text;
  FILE* pipe = popen(command.c_str(), "r");
  BOOST_REQUIRE(pipe != nullptr);
  std::array<char, 4096> part{};
  for (std::size_t count; (count = std::fread(part.data(), 1, part.size(), pipe)) > 0;) text.append(part.data(), count);
  status = pclose(pipe);
  return text;
}

bool has_program(const char* name) {
  int status = 0;
  printed_by_shell(std::string("command -v ") + name, status);
  return status == 0;
}

/// What a real bash offers after these words; the last one is the one being typed.
OptionNames offered(const Folder& folder, const std::vector<std::string>& words) {
  std::string line = "cd " + folder.path("") + " && bash -c 'source ./completion; COMP_WORDS=(";
  for (const std::string& word : words) line += "\"" + word + "\" ";
  line += "); COMP_CWORD=" + std::to_string(words.size() - 1) + "; _rushlight; printf \"%s\\n\" \"${COMPREPLY[@]}\"'";
  int status = 0;
  const std::string text = printed_by_shell(line, status);
  BOOST_TEST(status == 0, text);
  OptionNames names;
  for (const std::string& each : lines_of(text)) {
    if (!each.empty()) names.insert(each);
  }
  return names;
}

const Folder& with_completion() {
  static const Folder folder;
  static const bool written = [] {
    folder.write("completion", run_program({"completion", "bash"}).out);
    folder.write("my child.json", "{}");
    return true;
  }();
  (void)written;
  return folder;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(words_of_the_commands)

BOOST_AUTO_TEST_CASE(every_command_is_found_and_says_its_exit_statuses) {
  BOOST_TEST(all_commands().size() >= 16U);
  for (const auto& command : all_commands()) {
    const std::string help = help_of(command);
    BOOST_TEST(help.find("Exit status:\n  0  ") != std::string::npos, words_joined(command));
    BOOST_TEST(help.find("\n  1  ") != std::string::npos, words_joined(command));
    BOOST_TEST(help.find("\n  2  ") != std::string::npos, words_joined(command));
  }
}

BOOST_AUTO_TEST_CASE(help_names_the_manual_and_the_completion) {
  const auto& all = all_commands();
  for (const char* command : {"man", "completion"})
    BOOST_TEST(std::count(all.begin(), all.end(), std::vector<std::string>{command}) == 1, command);
}

BOOST_AUTO_TEST_CASE(every_option_of_help_is_in_the_manual_and_no_other) {
  for (const auto& command : all_commands()) {
    std::vector<std::string> words = {"man"};
    words.insert(words.end(), command.begin(), command.end());
    const Run page = run_program(words);
    BOOST_TEST(page.status == 0, page.err);
    std::string plain = page.out;
    for (std::size_t at; (at = plain.find("\\-")) != std::string::npos;) plain.erase(at, 1);
    OptionNames named;
    const std::regex bold("\\\\fB(--[a-z-]+)\\\\fR");
    for (std::sregex_iterator found(plain.begin(), plain.end(), bold), end; found != end; ++found)
      named.insert((*found)[1]);
    BOOST_TEST((named == options_in_help(help_of(command))), words_joined(command) << "\n" << plain);
    BOOST_TEST(plain.find(".SH EXIT STATUS\n") != std::string::npos);
    BOOST_TEST(plain.find("does not replace it, the clinic") != std::string::npos,
               "the caution stands in every manual");
  }
}

BOOST_AUTO_TEST_CASE(bash_offers_every_option_and_command_of_help) {
  for (const auto& command : all_commands()) {
    std::vector<std::string> words = {"rushlight"};
    words.insert(words.end(), command.begin(), command.end());
    words.push_back("--");
    BOOST_TEST((offered(with_completion(), words) == options_in_help(help_of(command))), words_joined(command));
    if (command.empty()) continue;
    words.pop_back();
    BOOST_TEST(offered(with_completion(), words).count(command.back()) == 1U, words_joined(command));
  }
}

BOOST_AUTO_TEST_CASE(bash_offers_files_sets_and_closed_lists_where_they_belong) {
  const Folder& folder = with_completion();
  BOOST_TEST((offered(folder, {"rushlight", "walk", "--lang", ""}) == OptionNames{"en", "es"}));
  BOOST_TEST((offered(folder, {"rushlight", "walk", "--set", "ref"}) == OptionNames{"reference"}));
  BOOST_TEST((offered(folder, {"rushlight", "walk", "--child", "my"}) == OptionNames{"my child.json"}));
  BOOST_TEST((offered(folder, {"rushlight", "new-set", "--from", "harb"}) == OptionNames{"harbour-lane"}));
  BOOST_TEST((offered(folder, {"rushlight", "key", "t"}) == OptionNames{"trust"}));
  BOOST_TEST(offered(folder, {"rushlight", "walk", "--from", ""}).empty());
  const std::vector<std::vector<std::string>> files = {
      {"thresholds"}, {"thresholds", "--from"}, {"compare"}, {"compare", "reference"}, {"compare", "--out"}};
  for (std::vector<std::string> words : files) {
    words.insert(words.begin(), "rushlight");
    words.emplace_back("my");
    BOOST_TEST((offered(folder, words) == OptionNames{"my child.json"}), words_joined(words));
  }
  for (const char* command : {"thresholds", "compare"})
    BOOST_TEST((offered(folder, {"rushlight", command, "harb"}) == OptionNames{"harbour-lane"}), command);
  // A value that is called like a command is no command.
  BOOST_TEST((offered(folder, {"rushlight", "walk", "--child", "key", "--take"}) == OptionNames{"--take-over"}));
}

BOOST_AUTO_TEST_CASE(zsh_takes_the_script_and_finds_every_option_in_it) {
  const std::string script = run_program({"completion", "zsh"}).out;
  for (const auto& command : all_commands()) {
    std::string name = "_rushlight";
    for (const std::string& word : command) name += "_" + std::regex_replace(word, std::regex("-"), "_");
    const std::size_t at = script.find("\n" + name + "() {\n");
    BOOST_REQUIRE_MESSAGE(at != std::string::npos, name);
    const std::string body = script.substr(at, script.find("\n}\n", at) - at);
    for (const std::string& option : options_in_help(help_of(command)))
      BOOST_TEST(body.find("'" + option + "[") != std::string::npos, name << " " << option);
  }
  const auto body_of = [&](const std::string& name) {
    const std::size_t at = script.find("\n" + name + "() {\n");
    return script.substr(at, script.find("\n}\n", at) - at);
  };
  for (const char* place : {"':was:", "':now:", "'--out["}) {
    const std::string body = body_of("_rushlight_compare");
    const std::size_t at = body.find(place);
    BOOST_REQUIRE_MESSAGE(at != std::string::npos, place << body);
    BOOST_TEST(body.substr(at, body.find('\n', at) - at).find("_files") != std::string::npos, place);
  }
  BOOST_TEST(body_of("_rushlight_thresholds").find("files\\:file\\:_files") != std::string::npos);
  if (!has_program("zsh")) return;
  const Folder folder;
  folder.write("_rushlight", script);
  int status = 0;
  const std::string said = printed_by_shell("zsh -n " + folder.path("_rushlight") + " 2>&1", status);
  BOOST_TEST(status == 0, said);
}

BOOST_AUTO_TEST_CASE(manual_is_clean_for_who_reads_manuals) {
  if (!has_program("mandoc")) return;
  const Folder folder;
  for (const auto& command : all_commands()) {
    std::vector<std::string> words = {"man"};
    words.insert(words.end(), command.begin(), command.end());
    folder.write("page.1", run_program(words).out);
    int status = 0;
    const std::string said = printed_by_shell("mandoc -T lint -W style " + folder.path("page.1") + " 2>&1", status);
    BOOST_TEST(said.empty(), said);
    const std::string shown =
        printed_by_shell("mandoc -T ascii " + folder.path("page.1") + " | sed 's/.\\x08//g'", status);
    BOOST_TEST(shown.find("EXIT STATUS") != std::string::npos);
  }
}

BOOST_AUTO_TEST_CASE(manual_of_no_command_and_completion_of_no_shell_are_refused) {
  BOOST_TEST(run_program({"man", "no-such-command"}).status == 1);
  BOOST_TEST(run_program({"completion", "fish"}).status == 2);
  BOOST_TEST(run_program({"completion"}).status == 2);
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace rushlight::tests
