#include <iostream>
#include <memory>

#include "cli/describe.hpp"
#include "cli/sheet_command.hpp"

namespace rushlight {

void describe_sheet(CLI::App& app, Commands& commands) {
  const auto wish = std::make_shared<SheetWish>();
  CLI::App* sheet = app.add_subcommand("sheet", "Print a child's steps for a low on paper, for a babysitter");
  sheet->add_option("--out", wish->out, "The file to write; a PDF needs one")->type_name("FILE");
  CLI::Option* text = sheet->add_flag("--text", wish->text, "Plain text, 80 columns wide");
  sheet->add_flag("--svg", wish->svg, "A picture with real text in it")->excludes(text);
  sheet->add_option("--paper", wish->paper, "The paper")->check(CLI::IsMember({"A4", "Letter"}));
  sheet->add_option("--also", wish->also, "One page more for this protocol, like ketones")->type_name("ID");
  sheet->add_option("--on", wish->on, "The day from which it is used, like 2026-03-01; otherwise today")
      ->type_name("DATE");
  sheet->add_option("--child", wish->child, "The child file; otherwise an invented child")->type_name("FILE");
  sheet->add_option("--protocols", wish->protocols, "A folder with the clinic's protocols")->type_name("DIR");
  sheet->add_option("--set", wish->set, "One of the sets inside the program, such as reference")
      ->type_name("NAME-OF-SET");
  sheet->add_option("--lang", wish->language, "Language of the sheet: en or es")->check(CLI::IsMember({"en", "es"}));
  say_exit_statuses(*sheet, "the sheet is made", "a set or a child file is refused, or holds no low to print");
  commands.push_back({sheet, [wish] { return sheet_command(*wish, std::cout, std::cerr); }});
}

}  // namespace rushlight
