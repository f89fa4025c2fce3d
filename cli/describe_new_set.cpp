#include <iostream>
#include <memory>

#include "cli/describe.hpp"
#include "cli/new_set_command.hpp"

namespace rushlight {

void describe_new_set(CLI::App& app, Commands& commands) {
  const auto wish = std::make_shared<NewSetWish>();
  CLI::App* make = app.add_subcommand("new-set", "Start a clinic's own set as files to edit");
  make->add_option("name", wish->name, "The name of the set, like harbour-clinic")->required()->type_name("NAME");
  make->add_option("--from", wish->from, "What to begin with: a set inside the program, or a folder")
      ->required()
      ->type_name("SET");
  make->add_option("--out", wish->out, "The folder to make; otherwise the name, where you are")->type_name("DIR");
  say_exit_statuses(*make, "the folder is made",
                    "something is there already, the name is none, or a file to copy is no protocol");
  commands.push_back({make, [wish] { return new_set_command(*wish, std::cout, std::cerr); }});
}

}  // namespace rushlight
