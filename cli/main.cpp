#include <unistd.h>

#include <CLI/CLI.hpp>
#include <csignal>
#include <iostream>

#include "cli/check_command.hpp"
#include "cli/child_new.hpp"
#include "cli/compare_command.hpp"
#include "cli/cut_off.hpp"
#include "cli/data_folder.hpp"
#include "cli/demo.hpp"
#include "cli/describe.hpp"
#include "cli/draw_picture.hpp"
#include "cli/first_aid_card.hpp"
#include "cli/language.hpp"
#include "cli/plain_text.hpp"
#include "cli/thresholds_command.hpp"
#include "cli/today.hpp"
#include "cli/walk_command.hpp"

namespace rushlight {
namespace {

// Every option is text: the libraries' own number reading is not used for anything (measure/decimal is the one reader).

CLI::Option* add_language(CLI::App& command, std::string& language) {
  return command.add_option("--lang", language, "Language of the screen: en or es")->check(CLI::IsMember({"en", "es"}));
}

void describe_walk(CLI::App& command, WalkOptions& options) {
  command.add_option("--child", options.child, "The child file (see: rushlight child new)")->type_name("FILE");
  command.add_flag("--demo-child", options.demo_child, "Practise with an invented child")->excludes("--child");
  command.add_option("--protocols", options.protocols, "A folder with the clinic's protocols")->type_name("DIR");
  command.add_option("--set", options.set, "One of the sets inside the program, such as reference")
      ->type_name("NAME-OF-SET");
  command.add_option("--protocol", options.protocol, "Which protocol to follow: asked first when none is named")
      ->type_name("ID");
  command.add_option("--from", options.from, "Enter a night that was kept on paper, from this time on, like 02:10")
      ->type_name("HH:MM");
  add_language(command, options.language);
  command.add_option("--journal", options.journal, "The file that keeps every answer")->type_name("FILE");
  command.add_flag("--no-journal", options.no_journal, "Keep nothing")->excludes("--journal");
  command.add_flag("--plain", options.plain, "Plain lines only, for a screen reader or a slow line");
  command.add_flag("--json", options.json, "One event for each line in, one view for each line out");
  command.add_flag("--take-over", options.take_over, "With --json: take this child over from another walk");
  say_exit_statuses(command, "the walk came to its end, or was left",
                    "something was refused: a set, a child file, a line of --json");
}

void describe_check(CLI::App& command, CheckOptions& options) {
  command.add_option("path", options.paths, "Protocols (*.xml), child files (*.json), folders of protocols")
      ->type_name("PATH");
  command.add_flag("--json", options.json, "Print one JSON document");
  command.add_option("--junit", options.junit, "Write JUnit XML to this file for a CI; - prints it")->type_name("FILE");
  command.add_option("--explain", options.explain, "Say who comes to this step or rule, and how")
      ->type_name("ID")
      ->excludes("--json")
      ->excludes("--junit");
  say_exit_statuses(command, "no error", "there are errors");
}

void describe_pictures(CLI::App& command, PictureWish& wish) {
  CLI::Option* map = command.add_option("--map", wish.map, "Draw what a step decides, as STEP:FACT or STEP:FACT,FACT");
  CLI::Option* flow = command.add_flag("--flow", wish.flow, "Draw all steps of a protocol on one page")->excludes(map);
  command.add_option("--given", wish.given, "With --map: one answer held fast, as FACT=VALUE")
      ->needs(map)
      ->allow_extra_args(false);
  command.add_option("--out", wish.out, "With --map or --flow: the file to draw to, *.svg or *.png")->type_name("FILE");
  for (CLI::Option* picture : {map, flow}) picture->excludes("--json")->excludes("--junit")->excludes("--explain");
}

void describe_compare(CLI::App& command, CompareOptions& options) {
  command.add_option("was", options.was, "The older version: a folder of protocols, one protocol, or a set")
      ->type_name("SET-OR-FILE")
      ->required();
  command.add_option("now", options.now, "The newer version")->type_name("SET-OR-FILE")->required();
  CLI::Option* json = command.add_flag("--json", options.json, "Print one JSON document with the exact regions");
  CLI::Option* all = command.add_flag("--all", options.all, "Tell every difference, by place and for whom, however many");
  CLI::Option* map =
      command.add_option("--map", options.map,
                         "Draw what a step decided, what it decides now and where that differs, as STEP:FACT or "
                         "STEP:FACT,FACT");
  map->excludes(json)->excludes(all);
  command.add_option("--given", options.given, "With --map: one answer held fast, as FACT=VALUE")
      ->needs(map)
      ->allow_extra_args(false);
  CLI::Option* out = command.add_option("--out", options.out, "With --map: the file to draw to, *.svg or *.png")
                         ->type_name("FILE")
                         ->needs(map);
  map->needs(out);
  say_exit_statuses(
      command, "nothing changes", "something changes, or the search was given up",
      "one of them cannot be read or compared, the output cannot be written, or the command was typed wrongly");
}

void describe_thresholds(CLI::App& command, ThresholdsOptions& options) {
  command.add_option("set", options.set, "A folder of protocols, one protocol, or a set inside the program")
      ->type_name("SET-OR-FILE");
  CLI::Option* csv = command.add_flag("--csv", options.csv, "List as a table for a spreadsheet");
  command.add_flag("--json", options.json, "Print one JSON document")->excludes(csv);
  command.add_option("--change", options.changes, "A number and its new value, like 'low=66 mg/dL, 3.7 mmol/L'");
  command.add_option("--from", options.from, "Take the changed rows of a table that --csv printed")->type_name("FILE");
  command.add_flag("--yes", options.yes, "Take a glucose in the other unit as it is converted");
  command.add_flag("--draft", options.draft, "Write although the check finds an error");
  add_language(command, options.language);
  say_exit_statuses(command, "listed, written, or nothing to change", "refused: nothing is written");
}

int run(int count, char** words) {
  CLI::App app{
      "Rushlight walks you through a child's low glucose or sick day, step by step.\n"
      "It follows the clinic's protocol and does not replace the clinic. If in doubt, call.\n"
      "Without a command it starts the walk.",
      "rushlight"};
  app.set_version_flag("--version", "rushlight 0.1.0");
  app.require_subcommand(0, 1);
  say_exit_statuses(app, "done", "there are errors, or a rule refused it");

  WalkOptions walk;
  CLI::App* walk_app = app.add_subcommand("walk", "Start, or go on with, a low or a sick day");
  describe_walk(*walk_app, walk);

  std::string demo_language = "en";
  CLI::App* demo_app = app.add_subcommand("demo", "Play a whole low with an invented child; asks nothing");
  add_language(*demo_app, demo_language);
  say_exit_statuses(*demo_app, "the demo came to its end", "it did not");

  CLI::App* child_app = app.add_subcommand("child", "The child file");
  child_app->require_subcommand(1);
  CLI::App* new_app = child_app->add_subcommand("new", "Make a child file: answers a few questions");
  std::string child_out, child_language;
  new_app->add_option("--out", child_out, "The file to write; nothing may be there yet")->type_name("FILE");
  add_language(*new_app, child_language);
  say_exit_statuses(*child_app, "done", "nothing was written");
  say_exit_statuses(*new_app, "the file is written", "nothing was written",
                    "the answers ended too early, or the file cannot be written");

  CheckOptions check;
  CLI::App* check_app = app.add_subcommand("check", "Look for mistakes in protocols, child files or folders");
  describe_check(*check_app, check);
  PictureWish picture;
  describe_pictures(*check_app, picture);

  CompareOptions compared;
  CLI::App* compare_app = app.add_subcommand("compare", "Say what changes in decisions from one version to another");
  describe_compare(*compare_app, compared);

  Commands commands;
  for (const auto describe : {describe_new_set, describe_approve, describe_approval, describe_key, describe_where,
                              describe_sheet, describe_record, describe_plan, describe_page, describe_words})
    describe(app, commands);
  ThresholdsOptions thresholds;
  CLI::App* thresholds_app = app.add_subcommand("thresholds", "List or change the numbers of a clinic's set");
  describe_thresholds(*thresholds_app, thresholds);

  try {
    app.parse(count, words);
  } catch (const CLI::ParseError& error) {
    return app.exit(error) == 0 ? 0 : 2;
  }
  for (const TypedCommand& command : commands) {
    if (command.app->parsed()) return command.run();
  }
  if (demo_app->parsed()) return demo(language_named(demo_language).value_or(Language::en), embedded_set("reference"));
  if (check_app->parsed() && (picture.flow || !picture.map.empty() || !picture.out.empty())) {
    picture.paths = check.paths;
    return draw_picture(picture, std::cout);
  }
  if (check_app->parsed()) return check_command(check, std::cout, std::cerr);
  if (compare_app->parsed()) return compare_command(compared, std::cout, std::cerr);
  if (thresholds_app->parsed()) {
    const bool asks = ::isatty(STDIN_FILENO) == 1 && ::isatty(STDOUT_FILENO) == 1;
    return thresholds_command(thresholds, std::cin, asks, std::cout, std::cerr);
  }
  if (new_app->parsed()) {
    if (child_out.empty()) child_out = usual_child_file();
    if (child_out.empty()) {
      std::cerr << "There is no home folder. Name the file: rushlight child new --out FILE\n";
      return 2;
    }
    return child_new(std::cin, std::cout, ChildNew{child_out, today(), language_named(child_language)});
  }
  return walk_command(walk);
}

}  // namespace
}  // namespace rushlight

int main(int count, char** words) {
  // A closed pipe must not kill a walk before it has let go of its journal.
  std::signal(SIGPIPE, SIG_IGN);
  try {
    return rushlight::status_when_printed(rushlight::run(count, words), std::cerr);
  } catch (const std::exception& error) {
    std::cerr << rushlight::cannot_begin({"rushlight: " + rushlight::cleaned(error.what())},
                                         rushlight::language_of_machine());
    return 2;
  }
}
